import type { StageRule } from '../../checking/rule.ts';
import { nitrousRatioShare } from '../../engineering/nitrous.ts';
import { nitrousRatioOver } from '../../remedies/nitrous-ratio.ts';

export const rule: StageRule = {
  id: 'engine/nitrous-lean',
  title: 'Nitrous jetted lean',
  severity: 'warning',
  why: 'The surplus of fuel is what cools an engine on nitrous and what is left when the bottle is warm, the pump tired or a jet half clogged. On gasoline 5 to 6.5 to 1 is usual, where chemistry has 9.3; near that there is no room.',
  inspect:
    'Read the numbers stamped on both jets and the table of their maker, and measure the fuel pressure while fuel flows through the jet.',
  remedy: 'Begin rich, by the table of the maker, and lean it out only with someone who reads plugs.',
  source: 'common practice, from memory: up to three quarters of the ratio of chemistry',
  cautions: ['nitrous', 'knock'],
  check: (situation) =>
    nitrousRatioOver(
      situation,
      nitrousRatioShare.value,
      1,
      (ratio, chemistry) =>
        `${ratio} to 1 of nitrous to fuel is lean: this fuel can burn ${chemistry} to 1 at the most, and a quarter of that is kept as room.`,
    ),
};
