import { expect } from 'vitest';

/** What no quantity can be. */
const nonsense = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1e9];

/**
 * Expects `call` to take `good` and to refuse it, with a `RangeError` that is a sentence, once any one of its numbers is
 * nonsense. Numbers inside objects and lists count too.
 */
export function expectRefusals<Arguments extends unknown[]>(
  call: (...given: Arguments) => unknown,
  ...good: Arguments
): void {
  expect(() => call(...good)).not.toThrow();
  for (const spoiled of spoil(good)) {
    const given = spoiled as Arguments;
    expect(() => call(...given), JSON.stringify(given)).toThrow(RangeError);
    expect(() => call(...given)).toThrow(/^[A-Z0-9].*\.$/s);
  }
}

/** Every copy of `value` in which one number is nonsense. */
function spoil(value: unknown): unknown[] {
  if (typeof value === 'number') return nonsense;
  if (Array.isArray(value)) {
    return value.flatMap((item, index) => spoil(item).map((bad) => value.with(index, bad)));
  }
  if (value !== null && typeof value === 'object') {
    return Object.entries(value).flatMap(([name, item]) => spoil(item).map((bad) => ({ ...value, [name]: bad })));
  }
  return [];
}
