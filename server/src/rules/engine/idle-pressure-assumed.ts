import { idlePulse } from '../../analysis/idle-injection.ts';
import type { StageRule } from '../../checking/rule.ts';
import { IDLE_MANIFOLD_PRESSURE } from '../../engineering/idle.ts';

/** Cam duration at 0.050 in up to which the usual manifold pressure at idle holds (deg). Common practice, from memory. */
const MILD_DURATION = 210;
/** How much one degree more lifts the manifold pressure at idle (Pa): 52 kPa at 230, 64 kPa at 250 degrees. Common practice, from memory. */
const PRESSURE_PER_DEGREE = 600;
/** Longer cams than this make the usual figure useless (deg). Common practice, from memory. */
const LONG_DURATION = 224;

export const rule: StageRule = {
  id: 'engine/idle-pressure-assumed',
  title: 'Idle pressure only assumed with a long cam',
  severity: 'information',
  why: 'The pulse at idle follows from the manifold pressure there, and a long cam idles far above the usual 40 kPa. A reading of the vacuum gauge at warm idle settles it: site pressure less the reading.',
  inspect:
    'Vacuum gauge on a manifold port, warm engine at its idle. Absolute pressure is the pressure of the air less the reading.',
  remedy: 'Write the measured pressure down. Until then take the figure that goes with the cam.',
  source: 'common practice, from memory',
  check: ({ values, see, show, showValue }) => {
    const duration = values.engine?.['cam-duration'];
    if (!duration || duration.value <= LONG_DURATION || values.engine?.['idle-manifold-pressure']) return undefined;
    const pulse = see(idlePulse);
    if (!pulse) return undefined;
    const kilopascal = Math.round(
      (IDLE_MANIFOLD_PRESSURE + PRESSURE_PER_DEGREE * (duration.value - MILD_DURATION)) / 1e3,
    );
    return {
      at: 'engine.cam-duration',
      message: `The idle pulse of ${show(pulse)} is worked out with the usual manifold pressure of ${showValue(IDLE_MANIFOLD_PRESSURE, 'absolute-pressure')} absolute, but a cam of ${show(duration)} idles higher.`,
      repairs: [
        {
          title: `Take ${kilopascal} kPa until it is measured`,
          set: { 'engine.idle-manifold-pressure': `${kilopascal} kPa` },
          shows: idlePulse,
        },
      ],
    };
  },
};
