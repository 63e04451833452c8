import { below, type StageRule } from '../../checking/rule.ts';

/** Least angle of the sensor above level, degrees. Common practice, from memory. */
const LEAST = 10;

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-tilt',
  title: 'Water runs into the oxygen sensor',
  severity: 'warning',
  why: 'A cold exhaust is wet. In a sensor that lies level or hangs below the pipe the water stays, and the heated element cracks when a drop reaches it. The sensor then reads lean, and the computer makes the engine rich.',
  inspect: 'Look at the bung with a level: the plug end must be higher than the tip.',
  remedy:
    'Weld the bung into the upper half of the pipe, so that the sensor points down to its tip by 10 degrees or more.',
  source: 'common practice, from memory: 10 degrees above level',
  cautions: ['welding'],
  check: ({ values, compare, showValue }) => {
    const tilt = values.sensors?.oxygen?.tilt;
    const miss = tilt && below(tilt, LEAST);
    if (!miss) return undefined;
    const shown = compare(tilt, LEAST);
    return {
      at: 'sensors.oxygen.tilt',
      message: `The oxygen sensor stands ${shown.value} above level, so water stays in it: it needs ${shown.limit} or more.`,
      ...miss,
      repairs: [
        {
          title: `Put the bung where the sensor stands ${showValue(3 * LEAST, 'angle')} above level`,
          set: { 'sensors.oxygen.tilt': showValue(3 * LEAST, 'angle') },
        },
      ],
    };
  },
};
