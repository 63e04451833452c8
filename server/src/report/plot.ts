import { formatEnd } from '../units/format.ts';
import { type Dimension, type DimensionUnits, dimensions, findUnit, type System } from '../units/units.ts';
import type { Block } from './page.ts';

/** A quantity along one side of a plot, in SI. */
export type Axis = { name: string; dimension: Dimension };

export type Point = { x: number; y: number };

/** Curves over one quantity, the limit they are held against, and points where something works. All values in SI. */
export type Plot = {
  title: string;
  description: string;
  x: Axis;
  y: Axis;
  lines: readonly { name: string; points: readonly Point[] }[];
  limit?: { name: string; value: number };
  marks: readonly (Point & { name: string })[];
};

const SIZE = { width: 640, height: 360, left: 64, right: 16, top: 16, bottom: 48 };

/** Dashes tell lines apart where color does not. */
const DASHES = ['', '8 4', '2 3', '10 3 2 3', '4 4'];

/** A plot as SVG that stands alone: no script, no style sheet, drawn in the color of the text around it. */
export function svgOf(plot: Plot, system: System, id: string): string {
  const [x, y] = [scaleOf(plot, 'x', system), scaleOf(plot, 'y', system)];
  const place = ({ x: across, y: up }: Point) => `${round(x.at(across))},${round(y.at(up))}`;
  const lines = plot.lines.map(({ points }, index) => {
    const dash = DASHES[index % DASHES.length];
    return `<polyline points="${points.map(place).join(' ')}" fill="none" stroke="currentColor" stroke-width="2"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`;
  });
  const limit = plot.limit && y.at(plot.limit.value);
  const right = SIZE.width - SIZE.right;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-labelledby="${id}-title ${id}-text" font-family="sans-serif" font-size="12" fill="currentColor">`,
    `<title id="${id}-title">${escaped(plot.title)}</title><desc id="${id}-text">${escaped(plot.description)}</desc>`,
    ...x.ticks.map(
      ({ at, text }) =>
        `<line x1="${at}" y1="${SIZE.top}" x2="${at}" y2="${SIZE.height - SIZE.bottom}" stroke="currentColor" stroke-opacity="0.15"/><text x="${at}" y="${SIZE.height - SIZE.bottom + 16}" text-anchor="middle">${text}</text>`,
    ),
    ...y.ticks.map(
      ({ at, text }) =>
        `<line x1="${SIZE.left}" y1="${at}" x2="${right}" y2="${at}" stroke="currentColor" stroke-opacity="0.15"/><text x="${SIZE.left - 6}" y="${at + 4}" text-anchor="end">${text}</text>`,
    ),
    `<text x="${(SIZE.left + right) / 2}" y="${SIZE.height - 8}" text-anchor="middle">${escaped(x.label)}</text>`,
    `<text x="14" y="${(SIZE.top + SIZE.height - SIZE.bottom) / 2}" text-anchor="middle" transform="rotate(-90 14 ${(SIZE.top + SIZE.height - SIZE.bottom) / 2})">${escaped(y.label)}</text>`,
    ...(limit === undefined || !plot.limit
      ? []
      : [
          `<line x1="${SIZE.left}" y1="${round(limit)}" x2="${right}" y2="${round(limit)}" stroke="currentColor" stroke-width="1.5" stroke-dasharray="1 2"/><text x="${right}" y="${round(limit) - 4}" text-anchor="end">${escaped(plot.limit.name)}</text>`,
        ]),
    ...lines,
    ...plot.marks.map(
      (mark) =>
        `<circle cx="${round(x.at(mark.x))}" cy="${round(y.at(mark.y))}" r="4"/><text x="${round(x.at(mark.x)) + 7}" y="${round(y.at(mark.y)) - 6}">${escaped(mark.name)}</text>`,
    ),
    '</svg>',
  ].join('');
}

/** Which dash is which line. */
export function legendOf({ lines }: Plot): string[] {
  const names = ['solid', 'long dashes', 'dots', 'dash and dot', 'short dashes'];
  return lines.map(({ name }, index) => `${names[index % names.length]}: ${name}`);
}

/** The numbers of a plot, as a table. */
export function plotTable({ x, y, lines, marks }: Plot, system: System): Block {
  const show = ({ dimension }: Axis, value: number) => formatEnd(value, dimension, system, 'near');
  const rows = lines.flatMap(({ name, points }) => points.map((point) => [name, show(x, point.x), show(y, point.y)]));
  const points = marks.map((mark) => [mark.name, show(x, mark.x), show(y, mark.y)]);
  return { kind: 'table', head: ['', x.name, y.name], rows: [...rows, ...points] };
}

type Scale = { at: (value: number) => number; ticks: { at: number; text: string }[]; label: string };

function scaleOf(plot: Plot, side: 'x' | 'y', system: System): Scale {
  const { name, dimension } = plot[side];
  const [unit = ''] = (dimensions[dimension] as DimensionUnits)[system];
  const factor = findUnit(dimension, unit)?.factor ?? 1;
  const values = [
    ...plot.lines.flatMap(({ points }) => points.map((point) => point[side])),
    ...plot.marks.map((mark) => mark[side]),
    ...(side === 'y' && plot.limit ? [plot.limit.value] : []),
  ].map((value) => value / factor);
  const most = Math.max(...values, 0);
  const step = niceStep(most / 5);
  const top = Math.ceil((most * 1.02) / step) * step || 1;
  const [from, to] = side === 'x' ? [SIZE.left, SIZE.width - SIZE.right] : [SIZE.height - SIZE.bottom, SIZE.top];
  const at = (value: number) => from + ((to - from) * value) / factor / top;
  const ticks = Array.from({ length: Math.round(top / step) + 1 }, (_, index) => {
    const value = index * step;
    return { at: round(from + ((to - from) * value) / top), text: String(Number(value.toPrecision(6))) };
  });
  return { at, ticks, label: unit ? `${name}, ${unit}` : name };
}

/** 1, 2 or 5 times a power of ten, at least the value. */
function niceStep(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value || 1));
  return ([1, 2, 5, 10].find((step) => step * decade >= value) ?? 10) * decade;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A text as markup shows it letter by letter. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
