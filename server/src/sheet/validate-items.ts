import type { Validate } from './schema-problems.ts';

/**
 * A schema check that looks at an item of some lists again only where it is another object than one that was found sound
 * before. The schema must check these items one by one.
 */
export function byItems(validate: Validate, lists: readonly string[]): Validate {
  const sound = new WeakSet<object>();
  const check: Validate = (value) => {
    const { reduced, numbers } = withoutSound(value, lists, sound);
    const isValid = validate(reduced);
    check.errors = (validate.errors ?? []).map((error) => ({
      ...error,
      instancePath: atItsPlace(error.instancePath, numbers),
    }));
    const wrong = new Set(check.errors.map(({ instancePath }) => instancePath.split('/').slice(0, 3).join('/')));
    for (const [list, items] of numbers)
      for (const number of items) {
        const item = (value as Record<string, unknown[]>)[list]?.[number];
        if (typeof item === 'object' && item && !wrong.has(`/${list}/${number}`)) sound.add(item);
      }
    return isValid;
  };
  return check;
}

/** Numbers of the items that are left in each list. */
type Numbers = Map<string, number[]>;

function withoutSound(value: unknown, lists: readonly string[], sound: WeakSet<object>) {
  const numbers: Numbers = new Map();
  if (typeof value !== 'object' || value === null) return { reduced: value, numbers };
  const reduced: Record<string, unknown> = { ...value };
  for (const list of lists) {
    const items: unknown = reduced[list];
    if (!Array.isArray(items)) continue;
    const left = [...items.keys()].filter((index) => {
      const item: unknown = items[index];
      return typeof item !== 'object' || item === null || !sound.has(item);
    });
    numbers.set(list, left);
    reduced[list] = left.map((index) => items[index]);
  }
  return { reduced, numbers };
}

function atItsPlace(path: string, numbers: Numbers): string {
  const [, list = '', item] = path.split('/');
  const number = item === undefined ? undefined : numbers.get(list)?.[Number(item)];
  return number === undefined ? path : path.replace(/^\/[^/]+\/\d+/, `/${list}/${number}`);
}
