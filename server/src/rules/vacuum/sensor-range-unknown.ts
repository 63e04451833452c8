import { sensorPressure } from '../../analysis/boost.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/sensor-range-unknown',
  title: 'Range of the manifold-pressure sensor not written down',
  severity: 'information',
  why: 'Many throttle bodies carry a sensor that reads to the pressure of the air and no further. Under boost such a sensor makes the engine run lean, so its range must be known before the blower is fitted: the maker of the throttle body or the print on the sensor tells.',
  inspect: 'Read the print on the sensor, or ask the maker of the throttle body what it reads to.',
  remedy: 'Write the top of its range down before the compressor is bought.',
  source: 'common practice',
  check: ({ values, stage, see, show }) => {
    const { sensors } = values;
    const boost = stage.boost;
    if (!sensors || !boost || boost.value <= 0 || sensors['manifold-pressure']?.range) return undefined;
    return {
      at: 'sensors.manifold-pressure.range',
      message: `The sheet does not tell whether the manifold-pressure sensor reads ${show(see(sensorPressure))} absolute.`,
      related: [{ at: 'stages.boost', message: `${show(boost)} of boost.` }],
      excess: boost.value,
    };
  },
};
