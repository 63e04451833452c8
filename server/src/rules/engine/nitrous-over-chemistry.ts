import type { StageRule } from '../../checking/rule.ts';
import { nitrousRatioOver } from '../../remedies/nitrous-ratio.ts';

export const rule: StageRule = {
  id: 'engine/nitrous-over-chemistry',
  title: 'More nitrous than the fuel can burn',
  severity: 'error',
  why: 'Over the ratio of chemistry there is oxygen left after all the fuel has burned. It burns what is next: valves, plugs, pistons. Systems are jetted for some two thirds of that ratio, so that a weak pump or a warm bottle does not reach it.',
  inspect:
    'Read the numbers stamped on both jets and the table of their maker, and measure the fuel pressure while fuel flows through the jet.',
  remedy: 'Fit a smaller nitrous jet or a larger fuel jet, by the table of the maker.',
  source:
    'chemistry, N2O -> N2 + 1/2 O2, with IUPAC atomic weights 2021: 9.3 on gasoline, 5.7 on ethanol, 4.1 on methanol',
  cautions: ['nitrous', 'knock'],
  check: (situation) =>
    nitrousRatioOver(
      situation,
      1,
      Number.POSITIVE_INFINITY,
      (ratio, chemistry) => `${ratio} to 1 of nitrous to fuel is more than the ${chemistry} to 1 this fuel can burn.`,
    ),
};
