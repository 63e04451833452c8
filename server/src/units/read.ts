import { awgArea } from '../engineering/wire.ts';
import { quoted } from '../text/echo.ts';
import { type Measure, type Phrase, takeApart, type WrittenUnit } from './grammar.ts';
import type { Written } from './number.ts';
import { referredUnit, withReference } from './pressure-unit.ts';
import type { Quantity } from './quantity.ts';
import { type Dimension, dimensions, dimensionsOfUnit, findUnit, isPureNumber, type Unit } from './units.ts';
import { isGauge, readGauge } from './wire-gauge.ts';

/** Why a text is no quantity, where in it, and what is to be put right: a unit that lacks or one that does not fit. */
export type Misread = {
  message: string;
  start: number;
  end: number;
  /** Where a unit is missing. */
  unitAt?: number;
  /** The unit that does not fit. */
  unit?: WrittenUnit;
  /** The same range from its lower to its higher end. */
  turned?: string;
};

/** Most characters of a quantity. */
export const LONGEST_QUANTITY = 100;

/** A text as a quantity of that dimension exactly as it stands, without a guess. */
export function readQuantity(text: string, dimension: Dimension): Quantity | Misread {
  if (text.length > LONGEST_QUANTITY)
    return misread(text, `This is too long for a quantity; write a number and a unit, such as ${example(dimension)}.`);
  const gauge = dimension === 'wire-size' ? readGauge(text) : undefined;
  if (gauge !== undefined) return gaugeQuantity(text, gauge);
  const phrase = takeApart(text);
  if (!phrase) return misread(text, noQuantity(text, dimension));
  const read = phrase.sign === 'range' ? rangeOf(text, phrase, dimension) : plainOf(text, phrase, dimension);
  if ('message' in read) return read;
  const { value, low, high } = read;
  if ([value, low, high].every(Number.isFinite)) return read;
  const isDivided = /[/⁄]0+(?!\d)/.test(text);
  return misread(text, isDivided ? 'The lower number of a fraction cannot be 0.' : 'This number is too large.');
}

function noQuantity(text: string, dimension: Dimension): string {
  const what = text.trim() === '' ? 'Nothing is written here' : `${quoted(text)} is not a quantity`;
  return `${what}; write a number and a unit, such as ${example(dimension)}.`;
}

function example(dimension: Dimension): string {
  return dimension === 'wire-size' ? '"12 AWG"' : `"${`2.5 ${dimensions[dimension].units[0]?.name}`.trim()}"`;
}

function gaugeQuantity(text: string, gauge: number): Quantity | Misread {
  if (!isGauge(gauge)) return misread(text, 'Wire gauges run from "4/0 AWG", the thickest, to "40 AWG".');
  const area = awgArea(gauge);
  return { value: area, low: area, high: area, dimension: 'wire-size', unit: 'AWG', text };
}

function plainOf(text: string, { first, second }: Phrase, dimension: Dimension): Quantity | Misread {
  const isShare = second?.unit?.name === '%' && dimension !== 'ratio';
  const written = first.unit ?? (isShare ? undefined : second?.unit);
  if (!written && !isPureNumber(dimension))
    return missingUnit(text, dimension, first.number, text.slice(first.number.start, first.number.end));
  const unit = unitFor(text, dimension, written);
  if ('message' in unit) return unit;
  const value = inSI(first, unit);
  const spread = second ? spreadOf(text, first, second, unit, dimension) : 0;
  if (typeof spread !== 'number') return spread;
  return quantity(text, dimension, unit, value, value - spread, value + spread);
}

/** Half the width of a tolerance in SI: a difference in the unit's own size, or a share of the value. */
function spreadOf(text: string, first: Measure, second: Measure, unit: Unit, dimension: Dimension): number | Misread {
  const spread = second.number.value;
  if (spread < 0) return misread(text, 'Write a tolerance without a sign, such as "+/- 5 %".');
  if (second.unit?.name === '%' && dimension !== 'ratio')
    return Math.abs(first.number.value * unit.factor) * spread * 0.01;
  const own = second.unit ? unitFor(text, dimension, second.unit) : unit;
  return 'message' in own ? own : spread * Math.abs(own.factor);
}

function rangeOf(text: string, { first, second = first }: Phrase, dimension: Dimension): Quantity | Misread {
  const written = second.unit ?? first.unit;
  if (!written && !isPureNumber(dimension)) return missingUnit(text, dimension, second.number, text);
  const to = unitFor(text, dimension, written);
  const from = first.unit ? unitFor(text, dimension, first.unit) : to;
  if ('message' in to) return to;
  if ('message' in from) return from;
  const ends = [inSI(first, from), inSI(second, to)];
  const isFalling = Math.sign(to.factor) * ((ends[0] ?? 0) - (ends[1] ?? 0)) > 0;
  if (isFalling)
    return {
      ...misread(text, 'A range runs from the lower to the higher value.'),
      turned: turned(text, first, second),
    };
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  return quantity(text, dimension, to, (low + high) / 2, low, high);
}

function turned(text: string, first: Measure, second: Measure): string {
  const written = ({ number, unit = second.unit ?? first.unit }: Measure) =>
    `${text.slice(number.start, number.end)} ${unit?.name ?? ''}`.trim();
  const sameUnit = !first.unit || first.unit.name === second.unit?.name;
  const lower = sameUnit ? text.slice(second.number.start, second.number.end) : written(second);
  return sameUnit ? `${lower}..${written(first)}` : `${lower} .. ${written(first)}`;
}

function quantity(text: string, dimension: Dimension, unit: Unit, value: number, low: number, high: number): Quantity {
  const isVacuum = unit.factor < 0;
  return {
    value,
    low,
    high,
    dimension,
    unit: unit.name,
    text,
    ...(unit.note && { note: unit.note }),
    ...(isVacuum && { isVacuum }),
  };
}

function inSI({ number }: Measure, { factor, offset = 0 }: Unit): number {
  return number.value * factor + offset;
}

function unitFor(text: string, dimension: Dimension, written: WrittenUnit | undefined): Unit | Misread {
  const name = written?.name ?? '';
  const unit = findUnit(dimension, name) ?? (isPressure(dimension) ? referredUnit(dimension, name) : undefined);
  if (typeof unit === 'string') return { message: unit, start: written?.start ?? 0, end: written?.end ?? text.length };
  if (!unit) return wrongUnit(text, dimension, written ?? { name, start: 0, end: text.length });
  if (unit.name !== 'AWG') return unit;
  return misread(text, 'A wire gauge is a whole number, such as "12 AWG", or "1/0 AWG".');
}

function isPressure(dimension: Dimension) {
  return dimension === 'pressure' || dimension === 'absolute-pressure' || dimension === 'depression';
}

function missingUnit(text: string, dimension: Dimension, { end }: Written, what: string): Misread {
  const units = dimensions[dimension].units.slice(0, 4).map(({ name }) => name);
  const message = `${quoted(what)} needs a unit of ${dimensions[dimension].title}: ${listed(units)}.`;
  return { ...misread(text, message), unitAt: end };
}

function wrongUnit(text: string, dimension: Dimension, unit: WrittenUnit): Misread {
  const known = knownStart(dimension, unit);
  if (known !== undefined) return leftOver(text, unit.start + known, unit.end);
  const elsewhere = dimensionsOfUnit(unit.name)[0];
  const units = dimensions[dimension].units.map(({ name }) => name).filter((name) => name !== '');
  const what = elsewhere ? `is a unit of ${dimensions[elsewhere].title}` : 'is not a unit this sheet knows';
  const wanted = units.length
    ? `a unit of ${dimensions[dimension].title}: ${listed(units.slice(0, 5))}`
    : 'a bare number';
  const message = `${quoted(unit.name)} ${what}; this field takes ${wanted}.`;
  return { message, start: unit.start, end: unit.end, unit };
}

/** How many characters of what stands in the unit's place are a unit, with more text after it. */
function knownStart(dimension: Dimension, { name }: WrittenUnit): number | undefined {
  for (let length = name.length - 1; length > 0; length--) {
    const isCut = /[\s,;:@(#=]/.test(name.charAt(length));
    const start = name.slice(0, length);
    if (isCut && (findUnit(dimension, start) || (isPressure(dimension) && withReference(start)))) return length;
  }
  return undefined;
}

function leftOver(text: string, from: number, end: number): Misread {
  const start = end - text.slice(from, end).trimStart().length;
  const before = quoted(text.slice(0, from));
  const message = `${quoted(text.slice(start, end))} is left over after ${before}; a field takes one quantity, and the rest belongs in a comment behind "#".`;
  return { message, start, end };
}

function misread(text: string, message: string): Misread {
  const start = text.length - text.trimStart().length;
  return { message, start, end: Math.max(start, text.trimEnd().length) };
}

function listed(words: string[]): string {
  return words
    .filter((word) => word !== '')
    .map((word) => `"${word}"`)
    .join(', ');
}
