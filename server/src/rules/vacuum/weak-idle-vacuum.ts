import { idleVacuum } from '../../analysis/air.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { formatIn } from '../../units/format.ts';

/** Least vacuum at idle, Pa, for a steady speed-density signal: 8 inHg. Common practice, from memory. */
const LEAST_VACUUM = 8 * 3386.38864;

export const rule: StageRule = {
  id: 'vacuum/weak-idle-vacuum',
  title: 'Too little vacuum at idle for speed-density',
  severity: 'warning',
  why: 'With a long-duration cam or at altitude, manifold pressure at idle is high and wavers, and it changes little with load. Fuel metered by it then hunts: choose a computer that can blend in the throttle position, or a milder cam.',
  inspect: 'Vacuum gauge at warm idle: a low needle that swings. Look for leaks before the cam is blamed.',
  remedy: 'A computer that blends in the throttle position, a milder cam or a higher idle.',
  source: 'definition of gauge pressure; limit common practice, from memory',
  check: ({ values, see, show }) => {
    const idle = values.engine?.['idle-manifold-pressure'];
    const vacuum = see(idleVacuum);
    if (!vacuum || vacuum.value < 0) return undefined;
    const miss = below(vacuum, LEAST_VACUUM);
    if (!miss) return undefined;
    const inUnit = (value: number) => formatIn(value, 'pressure', idle?.unit ?? 'kPa');
    const cam = values.engine?.['cam-duration'];
    return {
      at: 'engine.idle-manifold-pressure',
      message: `An idle at ${show(idle)} absolute leaves only ${inUnit(vacuum.value)} of vacuum under the ${inUnit(vacuum.value + (idle?.value ?? 0))} of the air at the site. A steady signal takes ${inUnit(LEAST_VACUUM)}.`,
      related: cam ? [{ at: 'engine.cam-duration', message: `A cam of ${show(cam)} at 0.050 in lift.` }] : [],
      ...miss,
    };
  },
};
