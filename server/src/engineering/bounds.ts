/** Returns `value`; throws RangeError unless it is a finite number. `name` opens the sentence: "The flow". */
export function finite(value: number, name: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a number, but it is ${value}.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number above zero. */
export function positive(value: number, name: string): number {
  if (finite(value, name) <= 0) throw new RangeError(`${name} must be above zero, but it is ${value}.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number, zero or above. */
export function notNegative(value: number, name: string): number {
  if (finite(value, name) < 0) throw new RangeError(`${name} must not be below zero, but it is ${value}.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number from `low` to `high`. */
export function within(value: number, low: number, high: number, name: string): number {
  if (finite(value, name) < low || value > high) {
    throw new RangeError(`${name} must be between ${low} and ${high}, but it is ${value}.`);
  }
  return value;
}
