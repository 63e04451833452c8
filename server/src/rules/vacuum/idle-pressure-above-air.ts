import { idleVacuum } from '../../analysis/idle.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/idle-pressure-above-air',
  title: 'Idle pressure above the pressure of the air',
  severity: 'error',
  why: 'An idling engine pulls its manifold below the pressure of the air at the site. A figure above it was read at another altitude or is not absolute, and idle fuel would be computed from it: enter the pressure of the air at the site less the reading of the vacuum gauge at warm idle.',
  inspect:
    'Vacuum gauge on a manifold port, warm idle; barometer or weather report for the pressure of the air, not the one reduced to sea level.',
  remedy: 'Write down the pressure of the air at the site less the reading of the gauge.',
  source: 'definition of absolute pressure; ISO 2533:1975',
  check: ({ values, see, compare }) => {
    const idle = values.engine?.['idle-manifold-pressure'];
    const vacuum = see(idleVacuum);
    if (!idle || !vacuum || vacuum.value >= 0) return undefined;
    const shown = compare(idle, vacuum.value + idle.value);
    return {
      at: 'engine.idle-manifold-pressure',
      message: `The manifold cannot idle at ${shown.value} absolute where the air has ${shown.limit}.`,
      related: [{ at: 'site.altitude', message: 'The altitude decides the pressure of the air.' }],
    };
  },
};
