import type { Units } from '../units/format.ts';
import { rounded } from './headroom-page.ts';
import type { Block } from './page.ts';
import { scaleOf } from './scale.ts';
import { label, picture, round, stroke } from './svg.ts';

/** How far the parts of each stage go, row by row: from the power claimed past what gives way, one after the other. Powers in W. */
export type Ladder = {
  kind: 'ladder';
  title: string;
  description: string;
  rows: readonly { name: string; claimed: number; upTo: number; marks: readonly { at: number; name: string }[] }[];
};

const SIZE = { width: 640, left: 16, right: 24, top: 12, row: 52, bottom: 44 };

export const ladderLegend = [
  'Ring: claimed; thick: nothing gives way; dashed: something has; the numbers are those of the table',
] as const;

/** A ladder as SVG: a bar a row, with a numbered stroke where something gives way. */
export function ladderSvg(ladder: Ladder, units: Units, id: string): string {
  const { left, top, row } = SIZE;
  const right = SIZE.width - SIZE.right;
  const bottom = top + row * ladder.rows.length;
  const scale = scaleOf(
    { name: 'power', dimension: 'power' },
    ladder.rows.map(({ upTo }) => upTo),
    units,
    left,
    right,
  );
  const rows = ladder.rows.map(({ name, claimed, upTo, marks }, index) => {
    const at = top + row * index + 34;
    const first = scale.at(marks[0]?.at ?? upTo);
    return [
      label(left, at - 20, name, undefined, 'font-weight="bold"'),
      stroke(left, at, first, at, 'stroke-width="5"'),
      stroke(first, at, scale.at(upTo), at, 'stroke-width="2" stroke-dasharray="4 4"'),
      `<circle cx="${round(scale.at(claimed))}" cy="${at}" r="6" fill="none" stroke="currentColor" stroke-width="2"/>`,
      ...marks.map((mark) => stroke(scale.at(mark.at), at - 8, scale.at(mark.at), at + 8, 'stroke-width="2"')),
      ...numbersOf(
        marks.map((mark) => scale.at(mark.at)),
        at,
      ),
    ].join('');
  });
  return picture(ladder, { width: SIZE.width, height: bottom + SIZE.bottom }, id, [
    ...scale.ticks.map(
      ({ at, text }) => stroke(at, top, at, bottom, 'stroke-opacity="0.15"') + label(at, bottom + 16, text, 'middle'),
    ),
    label((left + right) / 2, bottom + 34, scale.label, 'middle'),
    ...rows,
  ]);
}

/** How close strokes share one number, and how close two numbers must not stand beside each other, px. */
const SHARED = 12;
const CLOSE = 34;

/** The numbers of the strokes: of those that stand close one for all, and below the bar where one is close on the left. */
function numbersOf(strokes: readonly number[], at: number): string[] {
  const groups: { from: number; to: number; first: number; last: number }[] = [];
  for (const [number, x] of strokes.entries()) {
    const group = groups.at(-1);
    if (group && x - group.from < SHARED) Object.assign(group, { to: x, last: number + 1 });
    else groups.push({ from: x, to: x, first: number + 1, last: number + 1 });
  }
  let isBelow = false;
  return groups.map(({ from, to, first, last }, index) => {
    const before = groups[index - 1];
    isBelow = before !== undefined && from - before.to < CLOSE && !isBelow;
    const text = first === last ? String(first) : `${first}-${last}`;
    return label((from + to) / 2, isBelow ? at + 19 : at - 10, text, 'middle');
  });
}

/** The rungs of a ladder, as a table. */
export function ladderTable({ rows }: Ladder, units: Units): Block {
  return {
    kind: 'table',
    head: ['stage', 'power', 'what gives way'],
    rows: rows.flatMap(({ name, claimed, marks }) => [
      [name, rounded(claimed, units, Math.round), 'claimed'],
      ...marks.map((mark, index) => [`${name}, ${index + 1}`, rounded(mark.at, units, Math.floor), mark.name]),
    ]),
  };
}
