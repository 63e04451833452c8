import { echo } from '../text/echo.ts';
import { formatValue, type Units } from '../units/format.ts';
import type { Block } from './page.ts';
import { label, picture, stroke } from './svg.ts';

type Sign = 'tank' | 'pump' | 'filter' | 'line' | 'regulator' | 'injectors';

/** A piece of the way of the fuel, what there is to know of it, and the gauge pressure behind it at full load, Pa. */
export type Piece = { sign: Sign; name: string; notes: readonly string[]; pressure?: number };

/** The way of the fuel from the tank to the engine, and what brings the surplus back. */
export type FuelPath = {
  kind: 'fuel-path';
  title: string;
  description: string;
  feed: readonly Piece[];
  back: readonly Piece[];
};

/** Height of the way back over the tank. */
const OVER = 8;

const SIZE = { width: 760, top: 16, row: 62, feed: 28, back: 440, text: 26 };

/** Letters that stand beside a piece on the way down and on the way back. */
const ROOM = { feed: 56, back: 44 };

/** The way of the fuel as SVG, down on the left and back up on the right; signs as in ISO 1219-1. */
export function fuelPathSvg(path: FuelPath, units: Units, id: string): string {
  const { top, row, feed, back } = SIZE;
  const at = (index: number) => top + row * index + row / 2;
  const last = path.feed.length - 1;
  const height = top * 2 + row * path.feed.length;
  const down = path.feed.map((piece, index) => pieceSvg(piece, feed, at(index), units, ROOM.feed));
  const rises = path.back.map((piece, index) => pieceSvg(piece, back, at(last - index), units, ROOM.back));
  const topOfBack = last - path.back.length;
  const ways = path.feed.slice(1).map((_, index) => stroke(feed, at(index) + 12, feed, at(index + 1) - 12));
  const waysBack = path.back
    .slice(1)
    .map((_, index) => stroke(back, at(last - index) - 12, back, at(last - index - 1) + 12));
  const join =
    path.back.length === 0
      ? []
      : [
          stroke(feed + 12, at(last), back - 12, at(last), 'stroke-dasharray="4 4" stroke-opacity="0.5"'),
          stroke(back, at(topOfBack + 1) - 12, back, OVER),
          stroke(back, OVER, feed, OVER),
          stroke(feed, OVER, feed, at(0) + 2),
        ];
  return picture(path, { width: SIZE.width, height }, id, [...ways, ...waysBack, ...join, ...down, ...rises]);
}

function pieceSvg({ sign, name, notes, pressure }: Piece, x: number, y: number, units: Units, room: number): string {
  const behind = pressure === undefined ? [] : [`${formatValue(pressure, 'pressure', units)} behind it`];
  const [first = '', ...rest] = [...notes, ...behind];
  return [
    signs[sign](x, y),
    label(x + SIZE.text, y - 6, name, undefined, 'font-weight="bold"'),
    label(x + SIZE.text, y + 9, echo(first, room)),
    ...(rest.length ? [label(x + SIZE.text, y + 23, echo(rest.join(', '), room))] : []),
  ].join('');
}

const OUTLINE = 'fill="none" stroke="currentColor" stroke-width="2"';

const signs: Record<Sign, (x: number, y: number) => string> = {
  tank: (x, y) => `<path d="M${x - 16} ${y - 10}v22h32v-22" ${OUTLINE}/>`,
  pump: (x, y) => `<circle cx="${x}" cy="${y}" r="12" ${OUTLINE}/><path d="M${x - 7} ${y + 2}h14l-7 10z"/>`,
  filter: (x, y) =>
    `<path d="M${x} ${y - 12}l12 12l-12 12l-12 -12z" ${OUTLINE}/>${stroke(x - 12, y, x + 12, y, 'stroke-dasharray="3 2"')}`,
  line: (x, y) => stroke(x, y - 12, x, y + 12, 'stroke-width="4"'),
  regulator: (x, y) =>
    `<path d="M${x - 11} ${y - 11}h22v22h-22z" ${OUTLINE}/>${stroke(x, y + 8, x, y - 2)}<path d="M${x - 5} ${y - 1}h10l-5 -8z"/>`,
  injectors: (x, y) => `<path d="M${x - 10} ${y - 12}h20v10l-8 12h-4l-8 -12z" ${OUTLINE}/>`,
};

/** The pieces in the order the fuel passes them, as a table. */
export function fuelPathTable({ feed, back }: FuelPath, units: Units): Block {
  const row = ({ name, notes, pressure }: Piece) => [
    name,
    notes.join(', '),
    pressure === undefined ? '-' : formatValue(pressure, 'pressure', units),
  ];
  return { kind: 'table', head: ['piece', 'what it is', 'pressure behind it'], rows: [...feed, ...back].map(row) };
}
