/** Steps of a bisection after which the interval is a millionth of what it was. */
const STEPS = 20;

/**
 * An argument between two ends at which a function has a value, by bisection; nothing where the ends do not lie on both
 * sides of it, or where the function has no value on the way. Meant for functions that only rise or only fall.
 * Source: bisection, as in any text on numerical methods.
 */
export function argumentFor(
  value: number,
  at: (argument: number) => number | undefined,
  from: number,
  to: number,
): number | undefined {
  const [first, last] = [at(from), at(to)];
  if (first === undefined || last === undefined || (first - value) * (last - value) > 0) return undefined;
  const rises = last > first;
  let [low, high] = [from, to];
  for (let step = 0; step < STEPS; step++) {
    const middle = (low + high) / 2;
    const found = at(middle);
    if (found === undefined) return undefined;
    if (found < value === rises) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
