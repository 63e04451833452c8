import type { Induction } from '../engineering/demand.ts';
import type { InductionPath } from '../engineering/injectors.ts';
import type { Stage } from '../generated/build-sheet.ts';

/** How the engine is fed in a stage, with the usual path of the blower where it is not said. */
export function inductionOf({ induction = 'natural', path }: Stage): { induction: Induction; path: InductionPath } {
  if (induction === 'natural') return { induction, path: 'natural' };
  return { induction, path: path ?? (induction === 'roots' ? 'draw-through' : 'blow-through') };
}
