import { injectorFlow } from '../../analysis/full-load-injection.ts';
import { railPressureSet } from '../../analysis/regulator.ts';
import { pumpOutletPressure } from '../../analysis/supply.ts';
import { above, type Repair, type StageRule } from '../../checking/rule.ts';
import { reliefFor, USUAL_RELIEF, workingPressure } from '../../remedies/relief.ts';
import { roundedDown } from '../../remedies/size.ts';

/** How far a regulator may be set down before the injectors no longer spray as they should. Common practice, from memory. */
const LOWEST = 0.65;

export const rule: StageRule = {
  id: 'fuel-supply/relief-under-rail',
  title: "The pump's relief valve opens below the working pressure",
  severity: 'error',
  capacity: true,
  why: 'Once the relief valve opens, the fuel runs round inside the pump and not to the engine: the rail never reaches the set pressure, however large the pump is. With boost on top of the setting this shows only at full power, as a lean engine.',
  inspect:
    'Relief pressure in the flow sheet of the pump. On the car, a rail that stops rising below its setting while the return line stays dry is an open relief valve.',
  remedy:
    'Fit a pump made for this pressure. Setting the regulator down helps only where the injectors still spray as they should.',
  source: 'pressure balance; common practice',
  check: ({ values, see, show }) => {
    const relief = values['fuel-system']?.pump?.['relief-pressure'];
    const setting = values['fuel-system']?.regulator?.pressure;
    const needed = workingPressure([see(pumpOutletPressure), see(railPressureSet)]);
    const miss = relief && above(needed, relief.value);
    if (!needed || !miss) return undefined;
    const extra = needed.value - (setting?.value ?? needed.value);
    const lower = relief.value / USUAL_RELIEF - extra;
    const better = reliefFor(needed.value, relief);
    const repairs: Repair[] = [
      {
        title: `Fit a pump whose relief valve opens at ${better}`,
        set: { 'fuel-system.pump.relief-pressure': better },
      },
    ];
    if (setting && lower >= setting.value * LOWEST) {
      repairs.push({
        title: `Set the regulator to ${roundedDown(lower, setting)}`,
        set: { 'fuel-system.regulator.pressure': roundedDown(lower, setting) },
        shows: injectorFlow,
      });
    }
    return {
      at: 'fuel-system.pump.relief-pressure',
      message: `The pump works at ${show(needed)} at full power, but its relief valve opens at ${show(relief)}.`,
      related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
      ...miss,
      repairs,
    };
  },
};
