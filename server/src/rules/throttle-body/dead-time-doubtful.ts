import { deadTime } from '../../analysis/injectors.ts';
import type { Draft, StageRule } from '../../checking/rule.ts';
import { DEAD_TIME_VOLTAGE, plausibleDeadTime } from '../../engineering/dead-time.ts';
import type { Quantity } from '../../units/quantity.ts';

type Points = [Quantity, Quantity][];

const TABLE = 'throttle-body.injectors.dead-time-at';
const SINGLE = 'throttle-body.injectors.dead-time';

export const rule: StageRule = {
  id: 'throttle-body/dead-time-doubtful',
  title: 'Dead time no real injector has',
  severity: 'warning',
  why: 'Each pulse is longer than its fuel by the dead time, so duty at full power and the pulse at idle both stand on it. A wrong one makes sound injectors look too small and too large at once, and in the computer it makes idle and cruise wander with the battery voltage.',
  inspect: "Look it up in the injectors' data sheet, with the voltage and the fuel pressure it was measured at.",
  remedy:
    'Correct the figure. If there is none, take that of an injector of the same kind as a start and tune idle with it.',
  source: 'common practice, from memory: 0.4 to 1.5 ms at 14 V, more at less voltage',
  check: ({ values, show, impossible }) => {
    const injectors = values['throttle-body']?.injectors;
    const points = injectors?.['dead-time-at'] as Points | undefined;
    if (points) {
      const wrong = disorder(points, show);
      if (wrong.length > 0) impossible(deadTime);
      return [...wrong, ...points.flatMap((point) => doubt(TABLE, point, show)).slice(0, 1)];
    }
    const single = injectors?.['dead-time'];
    const voltage = injectors?.['dead-time-voltage'];
    if (!single) return undefined;
    return doubt(SINGLE, [voltage, single], show);
  },
};

type Show = (value: Quantity | undefined) => string;

/** A dead time outside what injectors have at its voltage. */
function doubt(
  at: typeof TABLE | typeof SINGLE,
  [voltage, time]: [Quantity | undefined, Quantity],
  show: Show,
): Draft[] {
  const { low, high } = plausibleDeadTime(voltage?.value ?? DEAD_TIME_VOLTAGE);
  if (time.value >= low && time.value <= high) return [];
  const volts = voltage ? show(voltage) : `${DEAD_TIME_VOLTAGE} V`;
  const range = `${(low * 1e3).toPrecision(2)} to ${(high * 1e3).toPrecision(2)} ms`;
  return [
    {
      at,
      message: `No injector for gasoline has a dead time of ${show(time)} at ${volts}; ${range} is what they have.`,
      repairs: [{ title: 'Take it out until the data sheet is at hand', remove: [at] }],
    },
  ];
}

/** A table that is not in order of voltage, or in which more voltage opens the injector later. */
function disorder(points: Points, show: Show): Draft[] {
  const sorted = points.toSorted(([one], [other]) => one.value - other.value);
  const unordered = points.findIndex(
    ([voltage], index) => index > 0 && voltage.value <= (points[index - 1]?.[0].value ?? 0),
  );
  if (unordered > 0) {
    const [now, before] = [points[unordered]?.[0], points[unordered - 1]?.[0]];
    const repairs = [
      {
        title: 'Put the points in order of voltage',
        set: { [TABLE]: sorted.map(([voltage, time]) => [voltage.text, time.text]) },
        safe: true,
      },
    ];
    return [
      {
        at: TABLE,
        message: `${show(now)} comes after ${show(before)}; the points run from low to high voltage.`,
        repairs,
      },
    ];
  }
  const rising = points.findIndex(
    ([, time], index) => index > 0 && time.value > (points[index - 1]?.[1].value ?? Number.POSITIVE_INFINITY),
  );
  if (rising < 0) return [];
  const [volts, time] = points[rising] as Points[number];
  return [
    {
      at: TABLE,
      message: `The dead time rises to ${show(time)} at ${show(volts)}; an injector opens sooner on more voltage.`,
    },
  ];
}
