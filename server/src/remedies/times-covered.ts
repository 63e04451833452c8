import { demandPerInjector, injectorFlow } from '../analysis/full-load-injection.ts';
import { idlePulseMargin } from '../analysis/idle-injection.ts';
import type { Situation } from '../checking/rule.ts';

/** Power at the duty limit over the claimed power up to which usual injectors still idle. Common practice, from memory. */
const RANGE = 5;

/** How many times the claimed power the injectors feed, where that is out of range and the idle cannot be reckoned. */
export function timesCovered({ see, limit }: Situation): number | undefined {
  const [need, has] = [see(demandPerInjector), see(injectorFlow)];
  if (!need || !has || see(idlePulseMargin)) return undefined;
  const times = (limit('largest-duty') * has.value) / need.value;
  return times > RANGE ? times : undefined;
}
