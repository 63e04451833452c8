import { isQuantityValue, type Quantity } from './quantity.ts';
import { findUnit } from './units.ts';

/**
 * Whether two values of a sheet say the same: quantities that are equal, or of which one is the other rounded to the digits
 * it is written with in another unit, as 350 hp and 261 kW; lists and sections of such.
 */
export function saysTheSame(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (isQuantityValue(one) || isQuantityValue(other))
    return isQuantityValue(one) && isQuantityValue(other) && sameQuantity(one, other);
  if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false;
  const [names, others] = [Object.keys(one), Object.keys(other)];
  return (
    Array.isArray(one) === Array.isArray(other) &&
    names.length === others.length &&
    names.every((name) => name in other && saysTheSame(Reflect.get(one, name), Reflect.get(other, name)))
  );
}

function sameQuantity(one: Quantity, other: Quantity): boolean {
  if (one.dimension !== other.dimension) return false;
  const off = Math.max(
    ...(
      [
        [one.value, other.value],
        [one.low, other.low],
        [one.high, other.high],
      ] as const
    ).map(([a, b]) => Math.abs(a - b)),
  );
  if (off === 0) return true;
  return one.unit !== other.unit && off <= Math.max(roundingOf(one), roundingOf(other)) * (1 + 1e-9);
}

/** The most a quantity may be off by the digits it is written with, SI; nothing for fractions, which are exact. */
function roundingOf({ text, dimension, unit }: Quantity): number {
  const [, decimals = ''] = /^[^\d]*\d+(?:\.(\d+))?(?!\d*\/)/.exec(text) ?? [];
  const factor = findUnit(dimension, unit)?.factor;
  return factor === undefined || /\d\/\d/.test(text) ? 0 : Math.abs(factor) * 0.5 * 10 ** -decimals.length;
}
