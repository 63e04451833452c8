import { type Dimension, findUnit, type Unit } from './units.ts';
import { formatGauge } from './wire-gauge.ts';

/** Kinds of quantity that are never known to more than two figures, or to the whole number where that is more. */
const COARSE: ReadonlySet<Dimension> = new Set(['ratio', 'temperature', 'angle', 'heat', 'energy']);

/** Significant figures an estimate of a kind deserves. */
function figuresOf(dimension: Dimension): number {
  return COARSE.has(dimension) ? 2 : 3;
}

/** Into how many steps of the last digit the way from the low to the high end of a value is divided at the most. */
const MOST_STEPS = 50;

/**
 * An estimate as text: an SI value in the named unit with the significant figures its kind deserves, or so many, but no
 * digit that its `spread` between low and high end makes worthless; temperatures, whose zero is arbitrary, and shares to the
 * whole number. @throws RangeError where the unit is none of the dimension
 */
export function estimate(
  value: number,
  dimension: Dimension,
  name: string,
  figures = figuresOf(dimension),
  spread = 0,
): string {
  if (name === 'AWG') return formatGauge(value);
  const unit = unitOf(dimension, name);
  const number = numberIn(value, unit);
  const deserved = decimalsOf(number, figures, unit, dimension);
  const worth = spread > 0 ? Math.floor(-Math.log10(spread / unit.factor / MOST_STEPS)) : deserved;
  return withUnit(plain(number, Math.min(deserved, worth)), unit);
}

/** A value and the limit it is held against, as texts. */
export type Comparison = { value: string; limit: string };

/**
 * An SI value and its limit in the named unit, with just as many digits as tell on which side of the limit the value is:
 * 152 lb/h against 150 lb/h, 1.402 ms against 1.400 ms, 20 psi against 14.7 psi. The value has at least the significant
 * figures its kind deserves; the limit up to four where it is a round number. @throws RangeError where the unit is none of the
 * dimension
 */
export function against(value: number, limit: number, dimension: Dimension, name: string): Comparison {
  if (name === 'AWG') {
    const gauges = { value: formatGauge(value), limit: formatGauge(limit) };
    return gauges.value === gauges.limit && value !== limit ? against(value, limit, dimension, 'mm^2') : gauges;
  }
  const unit = unitOf(dimension, name);
  const number = numberIn(value, unit);
  const bound = numberIn(limit, unit);
  const least = decimalsOf(number, figuresOf(dimension), unit, dimension);
  const most = decimalsOf(bound, isRound(bound) ? 4 : figuresOf(dimension), unit, dimension);
  const shown = { value: plain(number, least), limit: plain(bound, most) };
  const boundDecimals = Math.min(most, shown.limit.split('.')[1]?.length ?? 0);
  const side = sideOf(number, bound);
  for (let decimals = least; side !== sideOf(Number(shown.value), Number(shown.limit)) && decimals < MOST_DECIMALS; ) {
    decimals++;
    shown.value = fixed(number, decimals);
    shown.limit = fixed(bound, Math.max(decimals, boundDecimals));
  }
  return { value: withUnit(shown.value, unit), limit: withUnit(shown.limit, unit) };
}

const MOST_DECIMALS = 15;

/** Smallest relative difference that is no rounding of the computer. */
const NOISE = 1e-12;

function sideOf(value: number, limit: number): number {
  const difference = value - limit;
  return Math.abs(difference) <= NOISE * Math.max(Math.abs(value), Math.abs(limit)) ? 0 : Math.sign(difference);
}

function isRound(value: number): boolean {
  return sideOf(value, Number(value.toPrecision(4))) === 0;
}

/** How many decimals show so many significant figures; negative where even whole numbers have more. */
function decimalsOf(value: number, figures: number, { offset }: Unit, dimension: Dimension): number {
  if (value === 0) return 0;
  const decimals = figures - 1 - Math.floor(Math.log10(Math.abs(Number(value.toPrecision(figures)))));
  const least = COARSE.has(dimension) ? Math.max(0, decimals) : decimals;
  return offset === undefined ? least : Math.min(least, figures - 2);
}

function fixed(value: number, decimals: number): string {
  const step = 10 ** -decimals;
  return decimals > 0 ? value.toFixed(Math.min(decimals, MOST_DECIMALS)) : String(Math.round(value / step) * step);
}

/** Without trailing zeros behind the point. */
function plain(value: number, decimals: number): string {
  return String(Number(fixed(value, decimals)));
}

function unitOf(dimension: Dimension, name: string): Unit {
  const unit = findUnit(dimension, name);
  if (!unit) throw new RangeError(`${name} is not a unit of ${dimension}`);
  return unit;
}

/** An SI value as a number of a unit. */
export function numberIn(value: number, { factor, offset = 0 }: Unit): number {
  return (value - offset) / factor;
}

function withUnit(number: string, { name }: Unit): string {
  return `${number} ${name}`.trim();
}
