/** Where a number stands: fields and places in lists. */
export type Place = (string | number)[];

/** Places of the numbers and quantities of a sheet; a table is one place. */
export function numbersOf(value: unknown, place: Place = []): Place[] {
  if (typeof value === 'number') return [place];
  if (typeof value !== 'object' || value === null) return [];
  if ('dimension' in value) return [place];
  if (Array.isArray(value)) {
    const isTable = value.every((item) => Array.isArray(item));
    return isTable ? [place] : value.flatMap((item, index) => numbersOf(item, [...place, index]));
  }
  return Object.entries(value).flatMap(([name, inner]) => numbersOf(inner, [...place, name]));
}

/** The values with what stands at a place multiplied. */
export function moved(value: unknown, [step, ...rest]: Place, factor: number): unknown {
  if (step !== undefined) {
    const inner = moved((value as Record<string | number, unknown>)[step], rest, factor);
    return Array.isArray(value) ? value.with(step as number, inner) : { ...(value as object), [step]: inner };
  }
  return multiplied(value, factor);
}

function multiplied(value: unknown, factor: number): unknown {
  if (typeof value === 'number') return value * factor;
  if (Array.isArray(value)) return value.map((inner) => multiplied(inner, factor));
  const quantity = value as { value: number; low: number; high: number };
  const by = (number: number) => number * factor;
  return { ...quantity, value: by(quantity.value), low: by(quantity.low), high: by(quantity.high) };
}
