import { sitePressure } from '../../analysis/air.ts';
import { idleManifoldPressure, idleVacuum } from '../../analysis/idle.ts';
import { below, type StageRule } from '../../checking/rule.ts';

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
  check: ({ values, see, know, show, compare }) => {
    const unit = values.engine?.['idle-manifold-pressure']?.unit ?? 'kPa';
    const vacuum = see(idleVacuum);
    const [idle, air] = [know(idleManifoldPressure), see(sitePressure)];
    if (!vacuum || idle === undefined || !air || vacuum.value < 0) return undefined;
    const miss = below(vacuum, LEAST_VACUUM);
    if (!miss) return undefined;
    const against = (value: number) => compare({ value, dimension: 'pressure', unit }, LEAST_VACUUM);
    const cam = values.engine?.['cam-duration'];
    return {
      at: 'engine.idle-manifold-pressure',
      message: `An idle at ${against(idle).value} absolute leaves only ${against(vacuum.value).value} of vacuum under the ${against(air.value).value} of the air at the site. A steady signal takes ${against(vacuum.value).limit}.`,
      related: cam ? [{ at: 'engine.cam-duration', message: `A cam of ${show(cam)} at 0.050 in lift.` }] : [],
      ...miss,
    };
  },
};
