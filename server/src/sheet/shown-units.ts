import type { Units } from '../units/format.ts';
import { isQuantityValue, type Quantity } from '../units/quantity.ts';
import { type Dimension, type DimensionUnits, dimensions, findUnit, type System } from '../units/units.ts';
import type { House } from './house.ts';

/** How often each unit, or else its system, is written for a kind of quantity. */
type Votes = ReadonlyMap<Dimension, ReadonlyMap<string, number>>;

/** Kinds whose values are shown in the very unit that is written, where it is one of these. */
const OWN: Partial<Record<Dimension, readonly string[]>> = {
  pressure: ['bar', 'MPa'],
  'absolute-pressure': ['bar', 'MPa'],
  'injector-flow': ['cc/min', 'g/min', 'kg/h'],
  'mass-flow': ['g/s'],
  'volume-flow': ['gal/h', 'L/min', 'gal/min'],
  power: ['PS'],
};

/** From which kind a kind takes its units that nobody wrote. */
const LIKE: Partial<Record<Dimension, Dimension>> = {
  'absolute-pressure': 'pressure',
  pressure: 'absolute-pressure',
  depression: 'pressure',
  'mass-flow': 'injector-flow',
};

/** The units in which values are shown: for each kind of quantity as the sheet writes it, else as the house does. */
export function shownUnits(house: House, values: object): Exclude<Units, string> {
  const votes = votesIn(values);
  const system = house.units ?? majority(votes);
  const own: Partial<Record<Dimension, string>> = {};
  for (const dimension of Object.keys(dimensions) as Dimension[]) {
    const found = mostWritten(votes, dimension) ?? likeOther(votes, dimension);
    if (found && found !== system) own[dimension] = found;
  }
  return { system, own };
}

function likeOther(votes: Votes, dimension: Dimension): string | undefined {
  const other = LIKE[dimension];
  const found = other && mostWritten(votes, other);
  if (!found || found === 'us' || found === 'si' || OWN[dimension]?.includes(found)) return found;
  return 'si';
}

/** What is written most; nothing where two are written as often. */
function mostWritten(votes: Votes, dimension: Dimension): string | undefined {
  const counts = votes.get(dimension);
  if (!counts) return undefined;
  const [first, second] = [...counts].toSorted(([, one], [, other]) => other - one);
  return first && first[1] !== second?.[1] ? first[0] : undefined;
}

/** The system in which most of a sheet is written; US where it is even. */
function majority(votes: Votes): System {
  let lead = 0;
  for (const counts of votes.values()) lead += (counts.get('si') ?? 0) - (counts.get('us') ?? 0);
  return lead > 0 ? 'si' : 'us';
}

const known = new WeakMap<object, Votes>();

/** The votes in all sections of a sheet. */
function votesIn(values: object): Votes {
  const votes: Counts = new Map();
  for (const section of Object.values(values)) {
    if (typeof section !== 'object' || section === null) continue;
    for (const [dimension, counts] of votesOf(section))
      for (const [unit, count] of counts) add(votes, dimension, unit, count);
  }
  return votes;
}

/** The votes in one section; counted once, as long as it is the same object. */
function votesOf(section: object): Votes {
  let votes = known.get(section);
  if (!votes) {
    const counts: Counts = new Map();
    count(section, counts);
    votes = counts;
    known.set(section, votes);
  }
  return votes;
}

type Counts = Map<Dimension, Map<string, number>>;

function count(value: unknown, votes: Counts): void {
  if (isQuantityValue(value)) {
    const unit = votedFor(value);
    if (unit) add(votes, value.dimension, unit, 1);
  } else if (typeof value === 'object' && value !== null) for (const inner of Object.values(value)) count(inner, votes);
}

function add(votes: Counts, dimension: Dimension, unit: string, more: number): void {
  const counts = votes.get(dimension) ?? new Map<string, number>();
  counts.set(unit, (counts.get(unit) ?? 0) + more);
  votes.set(dimension, counts);
}

/** The unit a quantity speaks for, or its system; nothing where both systems use it, or where it says nothing. */
function votedFor({ dimension, unit }: Quantity): string | undefined {
  if (OWN[dimension]?.includes(unit)) return unit;
  const { us, si } = dimensions[dimension] as DimensionUnits;
  if (us.includes(unit) !== si.includes(unit)) return us.includes(unit) ? 'us' : 'si';
  if (us.includes(unit) || dimension in OWN) return undefined;
  const factor = findUnit(dimension, unit)?.factor ?? Number.NaN;
  return Number.isInteger(Number(Math.log10(factor).toFixed(9))) ? 'si' : 'us';
}
