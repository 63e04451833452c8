import type { Quantity } from '../units/quantity.ts';
import type { Absent, Outcome } from './figure.ts';
import type { Node, Sight } from './node.ts';
import type { Entry, Worksheet } from './worksheet.ts';

/** An end of a tolerance: the low one, the middle, the high one. */
export type End = -1 | 0 | 1;

/** Quantities at an end of their tolerance; all others are nominal. */
export type Ends = ReadonlyMap<Quantity, End>;

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
  private readonly known = new Map<string, Corner>();
  private readonly low = new Map<Quantity, Corner>();
  private readonly high = new Map<Quantity, Corner>();
  private readonly numbers = new Map<Quantity, number>();

  constructor(readonly nominal: Worksheet) {}

  at(ends: Ends): Corner {
    const key = this.keyOf(ends);
    let corner = this.known.get(key);
    if (!corner) {
      corner = new Corner(this, ends);
      this.known.set(key, corner);
    }
    return corner;
  }

  /** The corner with one quantity at an end. */
  alone(quantity: Quantity, end: -1 | 1): Corner {
    const ends = end > 0 ? this.high : this.low;
    let corner = ends.get(quantity);
    if (!corner) {
      corner = this.at(new Map([[quantity, end]]));
      ends.set(quantity, corner);
    }
    return corner;
  }

  /** The same for the same quantities at the same ends. */
  keyOf(ends: Ends): string {
    const parts: string[] = [];
    for (const [quantity, end] of ends) if (end !== 0) parts.push(`${this.numberOf(quantity)}${end > 0 ? '+' : '-'}`);
    return parts.sort().join('');
  }

  private numberOf(quantity: Quantity): number {
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
  private readonly outcomes = new Map<Node<unknown>, Outcome<unknown>>();
  private readonly parts = new Map<Loose, Corner>();

  constructor(
    private readonly corners: Corners,
    private readonly ends: Ends,
  ) {}

  get source() {
    return this.corners.nominal.source;
  }

  readonly pick = (quantity: Quantity): number => {
    const end = this.ends.get(quantity) ?? 0;
    return end === 0 ? quantity.value : end > 0 ? quantity.high : quantity.low;
  };

  see<T>(node: Node<T>): Outcome<T> {
    const entry = this.corners.nominal.entryOf(node);
    const loose = looseUnder(entry);
    if (loose.size === 0) return entry.outcome as Outcome<T>;
    const part = this.within(loose);
    return (part.ends.size === 0 ? entry.outcome : part.worked(node)) as Outcome<T>;
  }

  private within(loose: Loose): Corner {
    let part = this.parts.get(loose);
    if (!part) {
      part = this.corners.at(new Map([...this.ends].filter(([quantity, end]) => end !== 0 && loose.has(quantity))));
      this.parts.set(loose, part);
    }
    return part;
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
