import { sensorPressure } from '../../analysis/boost.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { roundedUp } from '../../remedies/size.ts';

/** Usual tops of range of manifold-pressure sensors, Pa: the trade's 1-bar to 7-bar sensors. Common practice, from memory. */
const USUAL_RANGES = [110e3, 200e3, 250e3, 300e3, 400e3, 500e3, 700e3];

/** Top of range, Pa, that is enough for an engine that gets no more than the pressure of the air: the trade's 1-bar sensor. */
const ONE_BAR = 100e3;

export const rule: StageRule = {
  id: 'vacuum/sensor-range',
  title: 'Manifold-pressure sensor reads less than the highest pressure',
  severity: 'error',
  capacity: true,
  why: 'Over the top of its range the sensor stays where it is, and the computer gives no more fuel while the engine gets more air. The mixture turns lean just where boost is highest, and the engine knocks.',
  inspect: 'Read the print on the sensor. In a log at full boost a line that goes flat is the top of its range.',
  remedy: 'Fit a sensor of the next range up, and give the computer its calibration.',
  source: 'definition of absolute pressure; reserve common practice',
  check: ({ values, stage, see, limit, show, showValue, compare }) => {
    const range = values.sensors?.['manifold-pressure']?.range;
    const highest = see(sensorPressure);
    if (!range || !highest) return undefined;
    const isBoosted = (stage.boost?.value ?? 0) > 0;
    if (!isBoosted && range.value >= ONE_BAR) return undefined;
    const reserve = isBoosted ? limit('sensor-reserve') : 0;
    const needed = (highest.high ?? highest.value) * (1 + reserve);
    const miss = above(highest, range.value / (1 + reserve));
    if (!miss) return undefined;
    const larger = USUAL_RANGES.find((top) => top >= needed);
    const { dimension, unit } = range;
    const reached = (times: number) => compare({ value: highest.value * times, dimension, unit }, range.value).value;
    return {
      at: 'sensors.manifold-pressure.range',
      message: `The sensor reads to ${show(range)} absolute, but the manifold reaches ${reached(1)} at sea level${isBoosted ? `, ${reached(1 + reserve)} with the reserve of ${showValue(reserve, 'ratio')}` : ''}.`,
      related: [{ at: 'stages.boost', message: 'The boost of this stage.' }],
      ...miss,
      repairs: larger
        ? [
            {
              title: `Fit a sensor that reads to ${roundedUp(larger, range)}`,
              set: { 'sensors.manifold-pressure.range': roundedUp(larger, range) },
              shows: sensorPressure,
            },
          ]
        : [],
    };
  },
};
