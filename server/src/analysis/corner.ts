import type { Quantity } from '../units/quantity.ts';
import type { Absent, Outcome } from './figure.ts';
import type { Node, Sight } from './node.ts';
import type { Entry, Worksheet } from './worksheet.ts';

/** An end of a tolerance: the low one, the middle, the high one. */
export type End = -1 | 0 | 1;

/** Ends of quantities by their number; what is not told is nominal. */
export type Ends = readonly End[];

/** Quantities with a tolerance. */
type Loose = ReadonlySet<Quantity>;

const NONE: Loose = new Set();

/** The quantities with a tolerance under an entry, found once an entry. */
export function looseUnder(entry: Entry): Loose {
  if (!entry.loose) {
    const own = looseIn(entry.raw);
    let found: Loose = own.length > 0 ? new Set(own) : NONE;
    for (const used of entry.used) found = union(found, looseUnder(used));
    entry.loose = found;
  }
  return entry.loose;
}

/** All of two sets; one of them, if it holds the other. */
function union(one: Loose, other: Loose): Loose {
  const [less, more] = one.size < other.size ? [one, other] : [other, one];
  for (const quantity of less) if (!more.has(quantity)) return new Set([...more, ...less]);
  return more;
}

/** Every quantity with a tolerance in what stands at a field. */
function looseIn(value: unknown): Quantity[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(looseIn);
  if (!('dimension' in value)) return [];
  const quantity = value as Quantity;
  return quantity.low === quantity.high ? [] : [quantity];
}

/** The nodes of one stage with quantities at ends of their tolerance; each node is computed once for the ends under it. */
export class Corners {
  private readonly numbers = new Map<Quantity, number>();
  private readonly numbered = new Map<Loose, readonly number[]>();
  private readonly middle = new Corner(this, []);

  constructor(readonly nominal: Worksheet) {}

  /** The corner with quantities at these ends. */
  at(ends: Ends): Corner {
    let corner = this.middle;
    for (let number = 0; number < ends.length; number++) corner = corner.with(number, ends[number] ?? 0);
    return corner;
  }

  /** The corner with one quantity at an end. */
  alone(number: number, end: End): Corner {
    return this.middle.with(number, end);
  }

  /** The part of a corner that quantities see. */
  part(ends: Ends, loose: Loose): Corner {
    let corner = this.middle;
    for (const number of this.numbersOf(loose)) corner = corner.with(number, ends[number] ?? 0);
    return corner;
  }

  /** The numbers of quantities, in order. */
  numbersOf(loose: Loose): readonly number[] {
    let numbers = this.numbered.get(loose);
    if (!numbers) {
      numbers = [...loose].map((quantity) => this.numberOf(quantity)).sort((one, other) => one - other);
      this.numbered.set(loose, numbers);
    }
    return numbers;
  }

  numberOf(quantity: Quantity): number {
    let number = this.numbers.get(quantity);
    if (number === undefined) {
      number = this.numbers.size;
      this.numbers.set(quantity, number);
    }
    return number;
  }
}

/** The nodes with some quantities at their ends. What none of them is under is as it is without. */
export class Corner implements Sight {
  private readonly further: (Corner | undefined)[] = [];
  private readonly parts = new Map<Loose, Corner>();
  private readonly outcomes = new Map<Node<unknown>, Outcome<unknown>>();

  constructor(
    private readonly corners: Corners,
    private readonly ends: Ends,
  ) {}

  get source() {
    return this.corners.nominal.source;
  }

  readonly pick = (quantity: Quantity): number => {
    const end = this.ends[this.corners.numberOf(quantity)] ?? 0;
    return end === 0 ? quantity.value : end > 0 ? quantity.high : quantity.low;
  };

  /** The corner with one more quantity, of a higher number, at an end. */
  with(number: number, end: End): Corner {
    if (end === 0) return this;
    const place = 2 * number + (end > 0 ? 1 : 0);
    let corner = this.further[place];
    if (!corner) {
      const ends = [...this.ends];
      while (ends.length < number) ends.push(0);
      corner = new Corner(this.corners, [...ends, end]);
      this.further[place] = corner;
    }
    return corner;
  }

  see<T>(node: Node<T>): Outcome<T> {
    const entry = this.corners.nominal.entryOf(node);
    const loose = looseUnder(entry);
    if (loose.size === 0) return entry.outcome as Outcome<T>;
    let part = this.parts.get(loose);
    if (!part) {
      part = this.corners.part(this.ends, loose);
      this.parts.set(loose, part);
    }
    return (part.ends.length === 0 ? entry.outcome : part.worked(node)) as Outcome<T>;
  }

  private worked<T>(node: Node<T>): Outcome<unknown> {
    let outcome = this.outcomes.get(node);
    if (!outcome) {
      outcome = this.tried(node);
      this.outcomes.set(node, outcome);
    }
    return outcome;
  }

  private tried(node: Node<unknown>): Outcome<unknown> {
    try {
      return node.evaluate(this);
    } catch {
      return FAILED;
    }
  }
}

/** A node that fails at a corner has no value there; where it fails at nominal values as well, that is told. */
const FAILED: Absent = { lacks: [] };
