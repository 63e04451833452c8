import type { StageRule } from '../../checking/rule.ts';
import { percent } from '../../remedies/percent.ts';
import { apartFromEstimate } from '../../remedies/power-disagreement.ts';
import { roundedDown } from '../../remedies/size.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: StageRule = {
  id: 'engine/boosted-power-claim',
  title: 'Boosted power does not follow from the natural power',
  severity: 'warning',
  why: 'Power grows with the density of the charge, less what a belt-driven compressor takes to drive. A claim far off points to a different boost, a different engine or a wrong number for the natural stage, and every part is sized by the claim: too large for what comes, or too small, and then lean under boost.',
  inspect: 'Compare the claim with a dyno sheet of a similar engine at about the same boost.',
  remedy: 'Claim what the boost can make, or write down the boost and the changes that make the rest.',
  source: 'common practice: power follows charge density; drive power: first law, Heywood (1988), eq. 6.43',
  check: (situation) => {
    const { stage, show } = situation;
    const found = apartFromEstimate(situation);
    if (!found || !stage.power) return undefined;
    const { estimate, natural, apart } = found;
    const power = roundedDown(estimate.value, stage.power);
    return {
      at: 'stages.power',
      message: `${show(stage.power)} is ${percent(Math.abs(apart))} ${apart > 0 ? 'above' : 'below'} the ${show(estimate)} that ${show(stage.boost)} of boost makes of the ${show(natural.stage.power)} in stage "${natural.name}".`,
      related: [
        { at: 'stages.boost', message: 'The boost.' },
        { at: inStage(natural.index, 'stages.power'), message: 'The natural power.' },
      ],
      repairs: [{ title: `Claim ${power}`, set: { 'stages.power': power } }],
    };
  },
};
