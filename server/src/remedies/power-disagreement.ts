import { demandDisagreement } from '../analysis/demand.ts';
import { above, below, type Situation } from '../checking/rule.ts';
import { outOfReach } from './power-reach.ts';

/** How far the two demands are apart where that is over the limit and not told as a claim out of reach. */
export function disagreement(situation: Situation) {
  const { see, limit, induction, stage } = situation;
  if (outOfReach(situation) || (induction === 'natural' && stage.boost?.value)) return undefined;
  const share = see(demandDisagreement);
  const most = limit('demand-disagreement');
  const miss = above(share, most) ?? below(share, -most);
  return share && miss ? { share: share.value, miss } : undefined;
}
