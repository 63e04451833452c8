import type { StageRule } from '../../checking/rule.ts';
import { fromLog, isLean, placeOfReading, readAgainst } from '../../remedies/measured.ts';

export const rule: StageRule = {
  id: 'measured/not-taken-over',
  title: 'A reading that the sheet does not go by',
  severity: 'information',
  why: 'The sheet goes by a value that was planned, or taken as usual, and the car shows another. All figures that stand on it are those of the plan, not of the car.',
  inspect: 'Read it again, warm, with nothing else switched on or off.',
  remedy: 'Where the reading is good, take it over; the figures then are those of the car.',
  source: 'common practice',
  check: (situation) =>
    situation.readings.flatMap((one) => {
      const { about, reading, read } = one;
      if (!one.isApart || !about.takes || isLean(one)) return [];
      const shown = readAgainst(situation, one);
      return [
        {
          at: placeOfReading(one),
          message: `${shown.read} was read${fromLog(one)}, the sheet goes by ${shown.computed}: ${about.name}.`,
          repairs: [
            { title: `Go by ${shown.read} as it was read`, set: about.takes(reading, read), shows: about.figure },
          ],
        },
      ];
    }),
};
