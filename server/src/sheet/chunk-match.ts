import type { Cut } from './cuts.ts';
import type { Entry } from './entry.ts';

/** A text in stretches that are read by themselves, each with the entry it stands for. */
export type Chunked = { text: string; cuts: readonly Cut[]; entries: readonly Entry[] };

/**
 * For each stretch of a text the number of the one before that it repeats, if there is one; none is repeated twice. `fresh`
 * and `gone` are those that are left on either side.
 */
export type Match = { sources: readonly (number | undefined)[]; fresh: readonly number[]; gone: readonly number[] };

/** What stretches of a text repeat: from its beginning, from its end, and between them wherever it stands. */
export function matched(text: string, cuts: readonly Cut[], before: Chunked): Match {
  const isSame = (index: number, source: number) => {
    const [cut, other] = [cuts[index], before.cuts[source]];
    return cut !== undefined && other !== undefined && isSameText(text, cut, before.text, other);
  };
  const sources: (number | undefined)[] = new Array(cuts.length).fill(undefined);
  const shift = before.cuts.length - cuts.length;
  let start = 0;
  while (isSame(start, start)) sources[start] = start++;
  let end = cuts.length;
  while (end > start && end + shift > start && isSame(end - 1, end - 1 + shift)) sources[--end] = end + shift;
  const left = grouped(numbers(start, end + shift), (index) => keyOf(before.text, before.cuts[index]));
  for (let index = start; index < end; index++) sources[index] = left.get(keyOf(text, cuts[index]))?.shift();
  return {
    sources,
    fresh: numbers(start, end).filter((index) => sources[index] === undefined),
    gone: [...left.values()].flat(),
  };
}

function isSameText(text: string, cut: Cut, otherText: string, other: Cut): boolean {
  return (
    cut.kind === other.kind &&
    cut.name === other.name &&
    cut.end - cut.start === other.end - other.start &&
    (cut.stretch === other.stretch || text.slice(cut.start, cut.end) === otherText.slice(other.start, other.end))
  );
}

function keyOf(text: string, cut: Cut | undefined): string {
  return cut ? `${cut.kind} ${cut.name} ${text.slice(cut.start, cut.end)}` : '';
}

function numbers(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, index) => from + index);
}

function grouped(indices: readonly number[], key: (index: number) => string): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const index of indices) {
    const group = groups.get(key(index));
    if (group) group.push(index);
    else groups.set(key(index), [index]);
  }
  return groups;
}

/**
 * Gives each fresh stretch the values of one that is gone from its place, so that what is the same in them can be told: of
 * the field of the same name, or of the next item of the same list.
 */
export function inherit(
  entries: readonly Entry[],
  cuts: readonly Cut[],
  { fresh, gone }: Match,
  before: Chunked,
): void {
  const place = (cut: Cut | undefined) => (cut?.kind === 'item' ? `${cut.name}[]` : `${cut?.name}`);
  const left = grouped(gone, (index) => place(before.cuts[index]));
  for (const index of fresh) {
    const source = left.get(place(cuts[index]))?.shift();
    const part = entries[index]?.part;
    if (part && source !== undefined) part.value = before.entries[source]?.part?.value;
  }
}
