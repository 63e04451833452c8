import { idleRailPressure, returnBackPressure, returnBackPressureShare } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { widerReturn } from '../../remedies/wider-return.ts';

export const rule: StageRule = {
  id: 'fuel-supply/return-too-small',
  title: 'The return line is too small',
  severity: 'error',
  capacity: true,
  why: 'At idle nearly the whole delivery has to go back. As long as what the return line holds up stays under the set pressure the regulator copes; from there on it can no longer bring the rail down, the engine idles rich, and the computer is tuned around a fault.',
  inspect:
    'Rail gauge with the pump running and the engine off: what it shows over the setting the return line holds up.',
  remedy: 'A wider return line, with fittings and tank nipple as wide; old vapor and vent tubes are too thin.',
  source: 'Darcy-Weisbach with Colebrook (1939); the limit is common practice',
  check: (situation) => {
    const { values, see, limit, show, compare } = situation;
    const bore = values['fuel-system']?.return?.['inside-diameter'];
    const setting = values['fuel-system']?.regulator?.pressure;
    const share = see(returnBackPressureShare);
    const most = limit('return-share');
    const miss = above(share, most);
    if (!bore || !share || !miss) return undefined;
    const shown = compare(share, most);
    const idle = see(idleRailPressure);
    const lifted =
      idle && setting && idle.value > setting.value * (1 + 1e-3)
        ? ` At idle it lifts the rail to ${compare(idle, setting.value).value} instead of ${compare(idle, setting.value).limit}.`
        : '';
    return {
      at: 'fuel-system.return.inside-diameter',
      message: `The return line of ${bore.text} holds up ${show(see(returnBackPressure))} with the whole delivery in it: ${shown.value} of the set pressure, over the limit of ${shown.limit}.${lifted}`,
      related: [{ at: 'fuel-system.pump', message: 'What it does not burn has to go back.' }],
      ...miss,
      repairs: widerReturn(situation, returnBackPressureShare),
    };
  },
};
