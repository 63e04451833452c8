import { argumentFor } from '../engineering/solve.ts';
import { fullTitle } from '../sheet/full-title.ts';
import { type FieldPath, fieldSchema } from '../sheet/path.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import type { StageAnalysis } from './analysis.ts';
import type { Compared } from './compared.ts';
import { isKnown } from './figure.ts';
import { measurables } from './measurables.ts';
import { isLeaf } from './node.ts';
import { Supposed } from './supposed.ts';
import type { Entry } from './worksheet.ts';

/** A value that would explain a reading: what is taken otherwise, and what it would have to be. */
export type Explanation = {
  name: string;
  dimension: Dimension;
  value: number;
  present: number;
  /** The field to write it into; nothing for a figure and for a whole curve. */
  field?: FieldPath;
  /** Why it is taken as it is, where the sheet does not say it. */
  assumed?: string;
  /** Other readings of the stage, off by themselves, that it explains as well. */
  also: readonly string[];
  /** The figure through which alone it acts, where that is an explanation of its own. */
  through?: string;
};

/** A node that could have another value: how it is supposed, over which range, and how far a value is from what is taken. */
type Candidate = Omit<Explanation, 'value' | 'also' | 'through'> & {
  id: string;
  from: number;
  to: number;
  suppose: (value: number) => unknown;
};

const CURVE = 'fuel-system.pump.flow-at';

/** How many times less or more than what is taken is still thought of, and how far for temperatures, K. Common practice. */
const FACTOR = 2;
const KELVIN = 30;
/** What part of its curve a pump is thought to give. */
const WORN = { from: 0.4, to: 1.2 };
/** How many times more of a loss that grows with dirt and rust is thought of, and how much nearer it counts for that. */
const GROWN = 12;
const GROWS = 0.05;
/** How much nearer a value counts that the sheet does not say, and the wear of a pump. */
const ASSUMED = 0.5;
/** Distances are told apart by so much. */
const SAME = 1e-6;

/**
 * What would explain a reading that is apart from its figure: each value the figure stands on, and each figure under it that
 * can itself be read, with what it would have to be, found by solving the figure for it with all else as it is. What another
 * reading of the stage contradicts is left out. What can be read comes first, then the nearest to what is taken.
 */
export function explanationsOf(stage: StageAnalysis, one: Compared, all: readonly Compared[]): Explanation[] {
  const { figure, takes } = one.about;
  const own = Object.keys(takes?.(one.reading, one.read) ?? {});
  const top = stage.worksheet.entryOf(figure);
  const candidates = [...under(top)].flatMap((entry) => (entry === top ? [] : candidatesOf(entry, stage)));
  const byId = new Map(candidates.map((candidate) => [candidate.id, candidate]));
  const others = all.filter(({ about, computed }) => about !== one.about && computed);
  const found = [...byId.values()]
    .filter(({ id }) => !own.includes(id))
    .flatMap((candidate) => explanationBy(candidate, stage, one, others) ?? [])
    .toSorted((a, b) => Math.round(distance(a) / SAME) - Math.round(distance(b) / SAME));
  const figures = found.filter(({ field, id }) => field === undefined && id !== CURVE);
  return found.map(({ id, from: _, to: __, suppose, ...explanation }) => {
    const through = figures.find(
      (between) => between.id !== id && actsThrough(stage, one, { id, suppose, explanation }, between),
    );
    return through ? { ...explanation, through: through.name } : explanation;
  });
}

type Found = Candidate & Explanation;

function under(entry: Entry, found = new Set<Entry>()): Set<Entry> {
  if (found.has(entry)) return found;
  found.add(entry);
  for (const used of entry.used) under(used, found);
  return found;
}

function candidatesOf({ node, outcome }: Entry, stage: StageAnalysis): Candidate[] {
  if (!isKnown(outcome)) return [];
  const { id } = node;
  const read = measurables.find(({ figure }) => figure.id === id);
  const present = outcome.value;
  if (read && typeof present === 'number') {
    const { name, figure } = read;
    const { dimension } = figure;
    const ends = [present / FACTOR, present * FACTOR].toSorted((a, b) => a - b);
    return [
      { id, name, dimension, present, from: ends[0] as number, to: ends[1] as number, suppose: (value) => value },
    ];
  }
  if (!isLeaf(node)) return [];
  if (id === CURVE) return [wornPump(present as Curve)];
  if (typeof present !== 'number') return [];
  return ofField(id as FieldPath, present, stage.worksheet.termsOf(node)[0]?.assumed);
}

type Curve = readonly (readonly [number, number])[];

function wornPump(curve: Curve): Candidate {
  return {
    id: CURVE,
    name: 'what the pump gives of its curve',
    dimension: 'ratio',
    present: 1,
    ...WORN,
    suppose: (share) => curve.map(([pressure, flow]) => [pressure, flow * share]),
  };
}

function ofField(field: FieldPath, present: number, assumed: string | undefined): Candidate[] {
  const schema = field.startsWith('limits.') ? undefined : fieldSchema(field);
  const range =
    schema?.dimension && rangeAround(present, schema.dimension, schema.allowed, grows(field) ? GROWN : FACTOR);
  if (!schema?.dimension || !range) return [];
  const { dimension } = schema;
  const suppose = (value: number) => value;
  return [
    { id: field, field, name: fullTitle(field), dimension, present, ...range, suppose, ...(assumed && { assumed }) },
  ];
}

/** Whether a field is a loss that grows with dirt and rust. */
function grows(field: FieldPath | undefined): boolean {
  return field?.endsWith('.loss') || field?.endsWith('.connectors') || false;
}

/** The range thought of around what is taken, within what the field can have. */
function rangeAround(
  present: number,
  dimension: Dimension,
  allowed: { from: string; to: string } | undefined,
  most: number,
) {
  const ends = allowed && [allowed.from, allowed.to].map((text) => parseQuantity(text, dimension));
  const [low, high] = ends?.map((end) => (isQuantity(end) ? end.value : undefined)) ?? [];
  if (low === undefined || high === undefined) return undefined;
  if (dimension === 'temperature')
    return { from: Math.max(low, present - KELVIN), to: Math.min(high, present + KELVIN) };
  if (present <= 0) return { from: low, to: high };
  return { from: Math.max(low, present / FACTOR), to: Math.min(high, present * most) };
}

function explanationBy(
  candidate: Candidate,
  stage: StageAnalysis,
  one: Compared,
  others: readonly Compared[],
): Found | undefined {
  const { id, from, to, present, suppose } = candidate;
  const at = (value: number) => new Supposed(stage.worksheet, new Map([[id, suppose(value)]]));
  const figureAt = (value: number) => at(value).number(one.about.figure);
  const ends = [from, to].map((end) => nearestKnown(end, present, figureAt));
  const value = argumentFor(one.read.value, figureAt, ends[0] as number, ends[1] as number);
  if (value === undefined || value === candidate.present) return undefined;
  const read = others.find(({ about }) => about.figure.id === id);
  if (read && (value < read.low || value > read.high)) return undefined;
  const then = at(value);
  const also: string[] = [];
  for (const other of others) {
    const isApart = isApartThen(other, then);
    if (isApart && !other.isApart) return undefined;
    if (!isApart && other.isApart) also.push(other.about.name);
  }
  return { ...candidate, value, also };
}

/** The end of a range, or what lies nearest to it, but for a hundredth of the range, where a figure can be had. */
function nearestKnown(end: number, present: number, figureAt: (value: number) => number | undefined): number {
  if (figureAt(end) !== undefined) return end;
  let [known, unknown] = [present, end];
  for (let step = 0; step < 7; step++) {
    const middle = (known + unknown) / 2;
    if (figureAt(middle) === undefined) unknown = middle;
    else known = middle;
  }
  return known;
}

/** Whether another reading would be apart from its figure, the tolerance of the figure as wide as it is now. */
function isApartThen({ about, computed, low, high }: Compared, then: Supposed): boolean {
  const value = then.number(about.figure);
  if (value === undefined || !computed) return true;
  const [below, above] = [
    (computed.low ?? computed.value) - computed.value,
    (computed.high ?? computed.value) - computed.value,
  ];
  return value + below > high || value + above < low;
}

/** Whether with a figure held as it is a supposed value would move nothing. */
function actsThrough(
  stage: StageAnalysis,
  { about, computed }: Compared,
  { id, suppose, explanation }: Pick<Candidate, 'id' | 'suppose'> & { explanation: Pick<Explanation, 'value'> },
  between: Found,
): boolean {
  const held = new Supposed(
    stage.worksheet,
    new Map([
      [id, suppose(explanation.value)],
      [between.id, between.present],
    ]),
  );
  const value = held.number(about.figure);
  if (value === undefined || !computed) return false;
  return Math.abs(value - computed.value) <= 1e-6 * Math.abs(computed.value);
}

function distance({ dimension, present, value, from, to, assumed, field, id }: Found): number {
  if (field === undefined && id !== CURVE) return -1;
  const far =
    dimension === 'temperature' || present <= 0
      ? Math.abs(value - present) / (to - from)
      : Math.abs(Math.log(value / present));
  return (assumed || id === CURVE ? ASSUMED : 1) * (grows(field) ? GROWS : 1) * far;
}
