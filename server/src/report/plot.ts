import { formatValue, type Units } from '../units/format.ts';
import type { Block } from './page.ts';
import { type Axis, type Scale, scaleOf } from './scale.ts';
import { label, picture, round, stroke } from './svg.ts';

export type Point = { x: number; y: number };

/** Curves over one quantity or from place to place, the limit they are held against, and points where something works. In SI. */
export type Plot = {
  kind: 'plot';
  title: string;
  description: string;
  x: Axis;
  y: Axis;
  lines: readonly { name: string; points: readonly Point[] }[];
  limit?: { name: string; value: number };
  marks: readonly (Point & { name: string })[];
};

const SIZE = { width: 640, left: 64, right: 16, top: 16, bottom: 48 };
const HEIGHT = { curve: 360, places: 220 };
const GRID = 'stroke-opacity="0.15"';

/** Dashes tell lines apart where color does not. */
const DASHES = ['', '8 4', '2 3', '10 3 2 3', '4 4'];
const DASH_NAMES = ['Solid', 'Long dashes', 'Dots', 'Dash and dot', 'Short dashes'];

/** A plot as SVG. */
export function plotSvg(plot: Plot, units: Units, id: string): string {
  const { left, top } = SIZE;
  const height = 'places' in plot.x ? HEIGHT.places : HEIGHT.curve;
  const [right, bottom] = [SIZE.width - SIZE.right, height - SIZE.bottom];
  const x = scaleOf(plot.x, valuesOf(plot, 'x'), units, left, right);
  const y = scaleOf(plot.y, valuesOf(plot, 'y'), units, bottom, top);
  const place = ({ x: across, y: up }: Point) => `${round(x.at(across))},${round(y.at(up))}`;
  const lines = plot.lines.map(({ points }, index) => {
    const dash = DASHES[index % DASHES.length];
    return `<polyline points="${points.map(place).join(' ')}" fill="none" stroke="currentColor" stroke-width="2"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`;
  });
  const limit = plot.limit && { ...plot.limit, at: y.at(plot.limit.value) };
  const middle = (top + bottom) / 2;
  return picture(plot, { width: SIZE.width, height }, id, [
    ...x.ticks.map(({ at, text }) => stroke(at, top, at, bottom, GRID) + label(at, bottom + 16, text, 'middle')),
    ...y.ticks.map(({ at, text }) => stroke(left, at, right, at, GRID) + label(left - 6, at + 4, text, 'end')),
    label((left + right) / 2, height - 8, x.label, 'middle'),
    label(14, middle, y.label, 'middle', `transform="rotate(-90 14 ${middle})"`),
    ...(limit
      ? [
          stroke(left, limit.at, right, limit.at, 'stroke-width="1.5" stroke-dasharray="1 2"'),
          label(right, limit.at - 4, limit.name, 'end'),
        ]
      : []),
    ...lines,
    ...marksOf(plot, x, y, right),
  ]);
}

/** Height of a line of words, and width of a letter at the most, px. */
const LETTER = { height: 14, width: 7 };

/** Keeps the lines of a plot out of the letters over them. */
const CLEAR = 'paint-order="stroke" stroke="Canvas" stroke-width="4"';

/** Points with their names: beside them, or further down where another name stands, on the left where there is no room. */
function marksOf({ marks }: Plot, x: Scale, y: Scale, right: number): string[] {
  const taken: { from: number; to: number; at: number }[] = [];
  return marks.map((mark) => {
    const [across, up] = [x.at(mark.x), y.at(mark.y)];
    const width = mark.name.length * LETTER.width;
    const isLeft = across + 7 + width > right;
    const from = isLeft ? across - 7 - width : across + 7;
    const isFree = (at: number) =>
      taken.every((one) => one.to < from || one.from > from + width || Math.abs(one.at - at) >= LETTER.height);
    let at = up - 6;
    while (!isFree(at)) at += LETTER.height;
    taken.push({ from, to: from + width, at });
    const text = label(isLeft ? across - 7 : across + 7, at, mark.name, isLeft ? 'end' : undefined, CLEAR);
    return `<circle cx="${round(across)}" cy="${round(up)}" r="4"/>${text}`;
  });
}

/** Which dash is which line. */
export function legendOf({ lines }: Plot): string[] {
  return lines.map(({ name }, index) => `${DASH_NAMES[index % DASH_NAMES.length]}: ${name}`);
}

/** Whether two values along the foot differ by no more than rounding. */
function isSame(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
}

/** The numbers of a plot, as a table: a row a value along the foot, a column a line; then the points. */
export function plotTable({ x, y, lines, marks }: Plot, units: Units): Block {
  const show = (axis: Axis, value: number | undefined) => {
    if (value === undefined) return '-';
    return 'places' in axis ? (axis.places[value] ?? '-') : formatValue(value, axis.dimension, units);
  };
  const along = lines
    .flatMap(({ points }) => points.map((point) => point.x))
    .toSorted((a, b) => a - b)
    .filter((at, index, all) => index === 0 || !isSame(at, all[index - 1] as number));
  const rows = along.map((at) => [
    show(x, at),
    ...lines.map(({ points }) => show(y, points.find((point) => isSame(point.x, at))?.y)),
  ]);
  const points = marks.map((mark) => [
    `${mark.name}: ${show(x, mark.x)}`,
    show(y, mark.y),
    ...lines.slice(1).map(() => ''),
  ]);
  const head = [x.name, ...lines.map(({ name }) => `${y.name}, ${name}`)];
  return { kind: 'table', head, rows: [...rows, ...points] };
}

function valuesOf(plot: Plot, side: 'x' | 'y'): number[] {
  return [
    ...plot.lines.flatMap(({ points }) => points.map((point) => point[side])),
    ...plot.marks.map((mark) => mark[side]),
    ...(side === 'y' && plot.limit ? [plot.limit.value] : []),
  ];
}
