import type { Kind } from '../engineering/bounds.ts';
import type { Dimension } from './units.ts';

const MARK = /\[(-?[\d.e+-]+) ([a-z-]+)\]/g;

/** A sentence of the physics with its quantities written by `show`, in the units of whoever reads it. */
export function inUnits(sentence: string, show: (value: number, dimension: Dimension) => string): string {
  return sentence.replaceAll(MARK, (_, value: string, kind: string) => show(Number(value), kind as Kind));
}
