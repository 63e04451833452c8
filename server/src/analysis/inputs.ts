import { type Absent, both, isKnown, type Outcome, type Term } from './figure.ts';
import type { Node, Showing, Sight } from './node.ts';

/** The nodes a node is worked out of, by the name each has in it. */
export type From = Readonly<Record<string, Node<unknown>>>;
export type Entries = readonly [name: string, node: Node<unknown>][];
export type ValuesOf<F extends From> = { readonly [K in keyof F]: F[K] extends Node<infer T> ? T : never };

/** The value of every input, or what keeps them from being known. */
export function gather<F extends From>(entries: Entries, sight: Sight): Outcome<ValuesOf<F>> {
  const values: Record<string, unknown> = {};
  let absent: Absent | undefined;
  for (const [name, node] of entries) {
    const outcome = sight.see(node);
    if (isKnown(outcome)) values[name] = outcome.value;
    else absent = absent ? both(absent, outcome) : outcome;
  }
  return absent ?? { value: values as ValuesOf<F> };
}

/** The values of inputs that are known. */
export function valuesOf<F extends From>(entries: Entries, sight: Sight): ValuesOf<F> {
  const inputs = gather<F>(entries, sight);
  if (!isKnown(inputs)) throw new Error('A value that is not known was shown.');
  return inputs.value;
}

/** What to show of every input, each once. */
export function termsOf(entries: Entries, showing: Showing): readonly Term[] {
  const found = new Set<Term>();
  for (const [, node] of entries) for (const term of showing.termsOf(node)) found.add(term);
  return [...found];
}
