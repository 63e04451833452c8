/**
 * A value with every part of it that is the same as before as the same object, so that what was worked out of it still
 * holds. Lists are compared item by item in their order.
 */
export function kept<T>(before: unknown, now: T): T {
  if (before === now || !isObject(before) || !isObject(now)) return now;
  if (Array.isArray(before) !== Array.isArray(now)) return now;
  const names = Object.keys(now);
  const result = names.map((name) => kept(before[name], now[name]));
  const known = Object.keys(before);
  if (
    known.length === names.length &&
    names.every((name, index) => name === known[index] && result[index] === before[name])
  )
    return before as T;
  return (Array.isArray(now) ? result : Object.fromEntries(names.map((name, index) => [name, result[index]]))) as T;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

/** A list as the same object as before, where it holds the same. */
export function sameList<T extends readonly unknown[]>(before: unknown, now: T): T {
  const isSame =
    Array.isArray(before) && before.length === now.length && now.every((item, index) => item === before[index]);
  return isSame ? (before as unknown as T) : now;
}
