import type { StageRule } from '../../checking/rule.ts';
import { isTwelveVolt } from '../../remedies/twelve-volt.ts';

export const rule: StageRule = {
  id: 'electrical/system-voltage',
  title: 'Not a 12-volt vehicle',
  severity: 'error',
  why: 'Throttle-body computers, injectors and pumps are made for 12 volts: on 6 volts they do not work, and 24 volts burn them. Lamps, gauges and the starter have to be changed with it, which is licensed work in many places.',
  inspect: 'Meter on the battery posts, and the number of cells: three are 6 volts, six are 12.',
  remedy:
    'Change the vehicle over to 12 volts with lamps, gauges, coil and starter, or feed the conversion from a 12-volt supply of its own. In many places that is licensed work.',
  source: 'common practice',
  check: ({ values, show }) => {
    const voltage = values.electrical?.['charging-voltage'];
    if (!voltage || isTwelveVolt(voltage.value)) return undefined;
    return {
      at: 'electrical.charging-voltage',
      message: `A charging voltage of ${show(voltage)} is not that of a 12-volt vehicle, which computer, injectors and pump need.`,
      repairs: [
        {
          title:
            voltage.value < 12
              ? 'Change the vehicle over to 12 V'
              : 'Feed the conversion from a 12 V supply of its own',
          set: { 'electrical.charging-voltage': '13.8 V' },
        },
      ],
    };
  },
};
