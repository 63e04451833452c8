import { finite, notNegative, positive } from './bounds.ts';

/** Bolt pattern and bores of a throttle body's foot or a manifold's top. */
export type Flange = 'square-bore' | 'spread-bore' | 'two-bore' | 'large-square-bore';

/** Thickness of a flat flange adapter: 3/16 in (m). Common practice. */
export const ADAPTER_THICKNESS = 0.0047625;

/**
 * Height (m) of everything on the manifold's flange: adapters and spacers, throttle body, air cleaner above it.
 * Thicknesses of zero are allowed, the throttle body's height is not.
 */
export function stackHeight(parts: { adapters: readonly number[]; throttleBody: number; airCleaner: number }): number {
  const adapters = parts.adapters.reduce((sum, each) => sum + notNegative(each, 'The adapter thickness'), 0);
  return (
    adapters +
    positive(parts.throttleBody, 'The throttle body height') +
    notNegative(parts.airCleaner, 'The air cleaner height')
  );
}

/** Room (m) left between a stack and the hood, negative when the stack is too tall; both measured from the flange. */
export function hoodMargin(hoodClearance: number, stack: number): number {
  return finite(hoodClearance, 'The hood clearance') - positive(stack, 'The stack height');
}

/** How a throttle body sits on a manifold. `leak` is true where a bolt-on without an adapter would leak air. */
export type FlangeFit = { matches: boolean; adapter: boolean; leak: boolean; note: string };

const UNCOVERED = 'A four-bore foot does not cover a two-bore manifold.';
const OPEN = 'A two-bore foot leaves part of a four-bore manifold open.';
const WIDER = 'The bolts of a large square-bore flange stand wider than those of the others.';

const fits: Record<Flange, Record<Flange, string>> = {
  'square-bore': {
    'square-bore': '',
    'spread-bore':
      'The large rear openings of a spread-bore manifold reach past a square-bore foot: without an adapter air leaks in under the plates.',
    'two-bore': UNCOVERED,
    'large-square-bore': WIDER,
  },
  'spread-bore': {
    'square-bore':
      'The large rear plates of a spread-bore body can touch a square-bore manifold, and its foot may not seal.',
    'spread-bore': '',
    'two-bore': UNCOVERED,
    'large-square-bore': WIDER,
  },
  'two-bore': { 'square-bore': OPEN, 'spread-bore': OPEN, 'two-bore': '', 'large-square-bore': OPEN },
  'large-square-bore': {
    'square-bore': WIDER,
    'spread-bore': WIDER,
    'two-bore': UNCOVERED,
    'large-square-bore': '',
  },
};

/** Fit of a throttle body's foot on a manifold's flange. Common practice. */
export function flangeFit(throttleBody: Flange, manifold: Flange): FlangeFit {
  const note = fits[throttleBody][manifold];
  const matches = note === '';
  return { matches, adapter: !matches, leak: !matches, note };
}
