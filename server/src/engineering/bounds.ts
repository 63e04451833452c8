/** Kinds of quantities named in a sentence of the physics. */
export type Kind =
  | 'absolute-pressure'
  | 'air-density'
  | 'density'
  | 'length'
  | 'pressure'
  | 'specific-energy'
  | 'temperature'
  | 'volume-flow';

/** A quantity, SI, in a sentence, as a mark such as `[353.15 temperature]`: whoever shows it writes it in the user's units. */
export function said(value: number, kind: Kind): string {
  return `[${value} ${kind}]`;
}

/** Returns `value`; throws RangeError unless it is a finite number. `name` opens the sentence: "The flow". */
export function finite(value: number, name: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a number.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number above zero. */
export function positive(value: number, name: string): number {
  if (finite(value, name) <= 0) throw new RangeError(`${name} must be above zero.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number, zero or above. */
export function notNegative(value: number, name: string): number {
  if (finite(value, name) < 0) throw new RangeError(`${name} must not be below zero.`);
  return value;
}

/** Returns `value`; throws RangeError unless it is a finite number from `low` to `high`; `kind` of one with a unit. */
export function within(value: number, low: number, high: number, name: string, kind?: Kind): number {
  if (finite(value, name) < low || value > high) {
    const say = (number: number) => (kind ? said(number, kind) : String(Number(number.toPrecision(4))));
    throw new RangeError(`${name} must be between ${say(low)} and ${say(high)}, but it is ${say(value)}.`);
  }
  return value;
}
