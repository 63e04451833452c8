import type { Induction } from '../engineering/demand.ts';
import type { InductionPath } from '../engineering/injectors.ts';
import type { Stage } from '../generated/build-sheet.ts';
import { choice, choose, fact, optional } from './node.ts';

/** How the engine is fed in a stage, with the usual path of the blower where it is not said. */
export function inductionOf({ induction = 'natural', path }: Stage): { induction: Induction; path: InductionPath } {
  return { induction, path: usualPath(induction, path) };
}

function usualPath(induction: Induction, path: Stage['path']): InductionPath {
  if (induction === 'natural') return 'natural';
  return path ?? (induction === 'roots' ? 'draw-through' : 'blow-through');
}

export const induction = choice<Induction>('stages.induction', 'induction', {
  value: 'natural',
  because: 'no blower is named',
});

const statedPath = optional(choice<'draw-through' | 'blow-through'>('stages.path', 'path'));
const withoutBlower = fact({ id: 'without-blower', from: {}, compute: (): InductionPath => 'natural' });
const throughBlower = fact({
  id: 'through-blower',
  from: { induction, statedPath },
  compute: ({ induction, statedPath }) => usualPath(induction, statedPath),
});

/** Which side of the blower the throttle body is on; `natural` without one. */
export const inductionPath = choose({
  id: 'induction-path',
  from: { induction },
  among: ({ induction }) => (induction === 'natural' ? withoutBlower : throughBlower),
});

export const isBoosted = fact({
  id: 'is-boosted',
  from: { induction },
  compute: (values) => values.induction !== 'natural',
});
