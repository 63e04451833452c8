import type { StageRule } from '../../checking/rule.ts';
import { feedPressure } from '../../remedies/line-class.ts';

export const rule: StageRule = {
  id: 'fuel-supply/dead-head-without-bypass',
  title: 'A dead-head regulator cannot let pressure go',
  severity: 'warning',
  why: 'A regulator that only throttles cannot take pressure off the rail: hot fuel standing in it after a stop creeps far over the setting, and the pump churns and heats fuel that goes nowhere. A bypass regulator holds the rail steady and keeps cool fuel moving past it.',
  inspect:
    'A regulator with one way in, one way out and no third port throttles only. Shut a warm engine off and watch the rail gauge: it climbs.',
  remedy:
    'Fit a bypass regulator behind the injectors with a return line to the tank, or a tank module that bypasses inside the tank.',
  source: 'common practice',
  check: (situation) => {
    const { values, show } = situation;
    const system = values['fuel-system'];
    const regulator = system?.regulator;
    if (regulator?.style !== 'dead-head') return undefined;
    const highest = feedPressure(situation);
    const setting = regulator.pressure;
    const climbs =
      highest && setting && highest.value > setting.value
        ? ` While the engine burns little, the pump pushes up to ${show(highest)} against it.`
        : '';
    const line = system?.return ?? system?.feed;
    const bore = line?.['inside-diameter'];
    const length = line?.length;
    return {
      at: 'fuel-system.regulator.style',
      message: `The regulator only throttles${system?.return ? ', so nothing flows in the return line' : ' and nothing returns to the tank'}.${climbs}`,
      related: system?.return ? [{ at: 'fuel-system.return', message: 'The line that it leaves unused.' }] : [],
      repairs: [
        ...(system?.return || (bore && length)
          ? [
              {
                title: system?.return ? 'Fit a bypass regulator' : 'Fit a bypass regulator and a return line',
                set: {
                  'fuel-system.regulator.style': 'bypass',
                  ...(!system?.return &&
                    bore &&
                    length && { 'fuel-system.return': { 'inside-diameter': bore.text, length: length.text } }),
                  ...((!system?.return || system.tank?.['return-port'] === false) && {
                    'fuel-system.tank.return-port': true,
                  }),
                },
              },
            ]
          : []),
        ...(system?.pump?.placement === 'in-tank' || system?.pump?.placement === 'tank-module'
          ? [
              {
                title: 'Mount a tank module with its own bypass regulator',
                set: { 'fuel-system.regulator.style': 'internal-bypass', 'fuel-system.pump.placement': 'tank-module' },
              },
            ]
          : []),
      ],
    };
  },
};
