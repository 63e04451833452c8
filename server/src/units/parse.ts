import { awgArea } from '../engineering/wire.ts';
import { isGauge, isQuantity, type Quantity, type QuantityError } from './quantity.ts';
import { type Dimension, dimensions, dimensionsOfUnit, findUnit, isPureNumber } from './units.ts';

const NUMBER = String.raw`[+-]?(?:\d+(?:\s+|-)\d+/\d+|\d+/\d+|(?:\d+(?:_\d+)*\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)`;
const TOLERANCE = String.raw`(?:\+\s*/\s*-|±)`;
const UNIT = String.raw`[^\d\s+±.,-][^+±]*?|%|"|'|1/min|1/s`;
const PLAIN = new RegExp(
  String.raw`^\s*(?<number>${NUMBER})\s*(?<unit>${UNIT})?\s*(?:${TOLERANCE}\s*(?<spread>${NUMBER})\s*(?<spreadUnit>${UNIT})?)?\s*$`,
);
const RANGE = new RegExp(
  String.raw`^\s*(?<from>${NUMBER})\s*(?<fromUnit>${UNIT})?\s*\.\.\s*(?<to>${NUMBER})\s*(?<toUnit>${UNIT})?\s*$`,
);
const GAUGE = /^\s*(?:(\d+)\/0|(0+)|(\d+))\s*(AWG|awg|ga|gauge)\s*$/;

/**
 * Reads `350 hp`, `1 3/4 in`, `12 AWG`, `350 +/- 15 hp`, `225 L/h +/- 5 %` or `1.2..1.4 ms` as a quantity of the given
 * dimension. A range's nominal value is its middle; an offset unit's tolerance is a difference. What it suggests instead
 * of a wrong text has the field's usual units first.
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  usual: () => string[] = () => [],
): Quantity | QuantityError {
  const read = parse(text, dimension);
  if (isQuantity(read)) return read;
  const units = usual();
  const rank = (instead: string) => {
    const place = units.findIndex((unit) => instead.endsWith(` ${unit}`));
    return place < 0 ? units.length : place;
  };
  return { ...read, instead: read.instead.toSorted((one, other) => rank(one) - rank(other)) };
}

function parse(text: string, dimension: Dimension): Quantity | QuantityError {
  if (dimension === 'wire-size') {
    const gauge = parseGauge(text);
    if (gauge) return gauge;
  }
  const range = RANGE.exec(text)?.groups;
  if (range) return parseRange(text, range as Record<string, string | undefined>, dimension);
  const plain = PLAIN.exec(text)?.groups as Record<string, string | undefined> | undefined;
  if (!plain?.number) return notAQuantity(text, dimension);
  const spreadUnit = plain.spreadUnit?.trim();
  const isShare = spreadUnit === '%' && dimension !== 'ratio';
  const name = plain.unit?.trim() || (isShare ? undefined : spreadUnit);
  if (name === undefined && !isPureNumber(dimension)) return missingUnit(text, dimension, plain.number);
  const unit = unitFor(text, dimension, name);
  if ('message' in unit) return unit;
  const value = toNumber(plain.number) * unit.factor + (unit.offset ?? 0);
  let spread = 0;
  if (plain.spread) {
    spread = toNumber(plain.spread);
    if (spread < 0) return problem(text, 'Write a tolerance without a sign, such as `+/- 5 %`.', []);
    const own = isShare || !spreadUnit ? unit : unitFor(text, dimension, spreadUnit);
    if ('message' in own) return own;
    spread *= isShare ? Math.abs(toNumber(plain.number) * unit.factor) * 0.01 : own.factor;
  }
  return finite(text, { value, low: value - spread, high: value + spread, dimension, unit: unit.name, text });
}

function parseRange(text: string, groups: Record<string, string | undefined>, dimension: Dimension) {
  const name = groups.toUnit?.trim() || groups.fromUnit?.trim();
  const to = unitFor(text, dimension, name);
  const from = groups.fromUnit ? unitFor(text, dimension, groups.fromUnit.trim()) : to;
  if ('message' in to) return to;
  if ('message' in from) return from;
  const low = toNumber(groups.from ?? '') * from.factor + (from.offset ?? 0);
  const high = toNumber(groups.to ?? '') * to.factor + (to.offset ?? 0);
  if (low > high)
    return problem(text, 'A range runs from the lower to the higher value.', [
      `${groups.to}..${groups.from} ${to.name}`,
    ]);
  return finite(text, { value: (low + high) / 2, low, high, dimension, unit: to.name, text });
}

function parseGauge(text: string): Quantity | QuantityError | undefined {
  const match = GAUGE.exec(text);
  if (!match) return undefined;
  const [, aught, zeros, plain] = match;
  const gauge = aught ? 1 - Number(aught) : zeros ? 1 - zeros.length : Number(plain);
  if (!isGauge(gauge)) return problem(text, 'Wire gauges run from `4/0 AWG`, the thickest, to `40 AWG`.', []);
  const area = awgArea(gauge);
  return { value: area, low: area, high: area, dimension: 'wire-size', unit: 'AWG', text };
}

function unitFor(text: string, dimension: Dimension, name: string | undefined) {
  if (name === undefined && !isPureNumber(dimension)) return missingUnit(text, dimension);
  const unit = findUnit(dimension, name ?? '');
  if (!unit) return wrongUnit(text, dimension, name ?? '');
  if (unit.name === 'AWG') return problem(text, 'A wire gauge is a whole number, such as `12 AWG`, or `1/0 AWG`.', []);
  return unit;
}

function missingUnit(text: string, dimension: Dimension, number = text.trim()): QuantityError {
  const units = dimensions[dimension].units.slice(0, 4).map(({ name }) => name);
  return problem(
    text,
    `\`${number}\` needs a unit of ${dimensions[dimension].title}: ${listed(units)}.`,
    units.map((unit) => text.trim().replace(number, `${number} ${unit}`)),
  );
}

function wrongUnit(text: string, dimension: Dimension, name: string): QuantityError {
  const start = text.lastIndexOf(name);
  const elsewhere = dimensionsOfUnit(name)[0];
  const units = dimensions[dimension].units.filter((unit) => unit.name !== '').map((unit) => unit.name);
  const wanted = units.length
    ? `a unit of ${dimensions[dimension].title}: ${listed(units.slice(0, 5))}`
    : 'a bare number';
  return {
    message: elsewhere
      ? `\`${name}\` is a unit of ${dimensions[elsewhere].title}; this field takes ${wanted}.`
      : `\`${name}\` is not a unit this sheet knows; this field takes ${wanted}.`,
    start,
    end: start + name.length,
    instead: units.length
      ? units
          .slice(0, 4)
          .map((unit) => `${text.slice(0, start).trim()} ${unit}${text.slice(start + name.length)}`.trimEnd())
      : [text.slice(0, start).trim()],
  };
}

function notAQuantity(text: string, dimension: Dimension): QuantityError {
  const grouped = /^\s*\d{1,3}(,\d{3})+(\.\d+)?(?=\D|$)/.exec(text);
  if (grouped) return problem(text, 'Write thousands without commas.', [text.replaceAll(/(?<=\d),(?=\d{3})/g, '')]);
  const comma = /^\s*[+-]?\d+,\d+(?=\D|$)/.exec(text);
  if (comma) return problem(text, 'Write decimals with a point.', [text.replace(',', '.')]);
  const example = dimensions[dimension].units.map(({ name }) => name)[0];
  const form = dimension === 'wire-size' ? '12 AWG' : `2.5 ${example}`.trim();
  const what = text.trim() === '' ? 'Nothing is written here' : `\`${text.trim()}\` is not a quantity`;
  return problem(text, `${what}; write a number and a unit, such as \`${form}\`.`, []);
}

function problem(text: string, message: string, instead: string[]): QuantityError {
  const start = text.length - text.trimStart().length;
  return { message, start, end: Math.max(start, text.trimEnd().length), instead };
}

function finite(text: string, quantity: Quantity): Quantity | QuantityError {
  const { value, low, high } = quantity;
  if ([value, low, high].every(Number.isFinite)) return quantity;
  const isFraction = /\/0+(?!\d)/.test(text);
  return problem(text, isFraction ? 'The lower number of a fraction cannot be 0.' : 'This number is too large.', []);
}

function toNumber(text: string): number {
  const [, sign, whole, over, under] = /^([+-]?)(?:(\d+)(?:\s+|-))?(\d+)\/(\d+)$/.exec(text) ?? [];
  if (over === undefined || under === undefined) return Number(text.replaceAll('_', ''));
  return (sign === '-' ? -1 : 1) * (Number(whole ?? 0) + Number(over) / Number(under));
}

function listed(words: string[]): string {
  return words
    .filter((word) => word !== '')
    .map((word) => `\`${word}\``)
    .join(', ');
}
