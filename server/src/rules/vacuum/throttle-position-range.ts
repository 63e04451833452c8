import type { Draft, StageRule } from '../../checking/rule.ts';

/** Where the ends of a throttle-position sensor on 5 V belong, V, and the least way between them. Common practice, from memory. */
const CLOSED = { least: 0.3, most: 1 };
const OPEN = { least: 3.8, most: 4.8 };

export const rule: StageRule = {
  id: 'vacuum/throttle-position-range',
  title: 'Throttle-position sensor outside its range',
  severity: 'warning',
  why: 'The computer takes a signal near 0 or 5 V for a broken wire, and one that never reaches the top for a throttle that is never open: no full-load mixture, no clearing of a flooded engine, wrong idle.',
  inspect:
    'Key on, engine off: volts of the signal against the ground of the sensor, at the idle stop and with the pedal on the floor, and rising without a jump between.',
  remedy:
    'Turn or shim the sensor so that closed lies between 0.3 and 1 V, make sure that the plates open fully, then let the computer take both ends over.',
  source: 'common practice, from memory: 0.3 to 1 V closed, 3.8 to 4.8 V open',
  check: ({ values, show, showValue }) => {
    const sensor = values.sensors?.['throttle-position'];
    const ends = [
      ['closed', sensor?.closed, CLOSED, 'at the idle stop'],
      ['open', sensor?.open, OPEN, 'fully open'],
    ] as const;
    return ends.flatMap(([name, volts, { least, most }, where]): Draft[] => {
      if (!volts || (volts.value >= least && volts.value <= most)) return [];
      const [from, to, middle] = [least, most, (least + most) / 2].map((value) => showValue(value, 'voltage'));
      return [
        {
          at: `sensors.throttle-position.${name}`,
          message: `The throttle-position sensor gives ${show(volts)} ${where}; ${from} to ${to} is sound.`,
          excess: Math.max(least - volts.value, volts.value - most),
          repairs: [
            {
              title: `Set the sensor to ${middle} ${where}`,
              set: { [`sensors.throttle-position.${name}`]: middle ?? null },
            },
          ],
        },
      ];
    });
  },
};
