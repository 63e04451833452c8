import { boostedPowerEstimate } from '../analysis/boost.ts';
import { demandDisagreement } from '../analysis/demand.ts';
import { above, below, type Situation } from '../checking/rule.ts';
import { outOfReach, underReach } from './power-reach.ts';

/** How far the two demands are apart where that is over the limit and not told as a claim out of reach, far below it or apart
 * from what the boost makes. */
export function disagreement(situation: Situation) {
  const { see, limit, induction, stage } = situation;
  if (
    outOfReach(situation) ||
    underReach(situation) ||
    apartFromEstimate(situation) ||
    (induction === 'natural' && stage.boost?.value)
  )
    return undefined;
  const share = see(demandDisagreement);
  const most = limit('demand-disagreement');
  const miss = above(share, most) ?? below(share, -most);
  return share && miss ? { share: share.value, miss } : undefined;
}

/** Shares by which a boosted claim may be above and below the estimate from the natural power. Common practice, from memory. */
const ACCEPTED = { above: 0.2, below: 0.25 } as const;

/** How far a boosted claim is from what the boost makes of the natural power of the same engine, where that is too far. */
export function apartFromEstimate(situation: Situation) {
  const { see, stage, values, plan, index } = situation;
  const estimate = see(boostedPowerEstimate);
  const natural = plan[situation.natural ?? index];
  if (!estimate || !stage.power || !natural || outOfReach(situation) || underReach(situation)) return undefined;
  const isSameEngine = (['displacement', 'peak-power-speed'] as const).every(
    (name) => natural.values.engine?.[name]?.value === values.engine?.[name]?.value,
  );
  const apart = stage.power.value / estimate.value - 1;
  const isNear = apart <= ACCEPTED.above && apart >= -ACCEPTED.below;
  return isSameEngine && !isNear ? { estimate, natural, apart } : undefined;
}
