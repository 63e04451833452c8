import type { StageRule } from '../../checking/rule.ts';
import { explained, fromLog, placeOfReading, placesOf, readAgainst, takenOver } from '../../remedies/measured.ts';

export const rule: StageRule = {
  id: 'measured/figure-apart',
  title: 'A reading does not meet its figure',
  severity: 'warning',
  why: 'A reading that is further from its figure than gauge and tolerances allow says that the car is not as the sheet has it. Every figure that stands on the same value is then off as well, also those that nobody can read.',
  inspect:
    'Read again with a second gauge. Then go through what is named as an explanation, what can be read first: each was found by solving the figure for it, with all else as it is.',
  remedy:
    'Mend what is wrong on the car and read again, or write into the sheet what was found. Adjust nothing before the cause is known.',
  source: 'the figure of the reading, solved backwards; tolerances of gauges: ASME B40.100 (2013), from memory',
  check: (situation) =>
    situation.readings
      .filter(({ isApart, about }) => isApart && !about.takes)
      .map((one) => {
        const explanations = situation.explain(one);
        const { read, computed } = readAgainst(situation, one);
        return {
          at: placeOfReading(one),
          message: `${read} was read${fromLog(one)}, ${computed} is computed: ${one.about.name}. ${explained(situation, explanations)}`,
          related: placesOf(explanations, situation),
          repairs: takenOver(explanations, one, situation),
        };
      }),
};
