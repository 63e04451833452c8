import type { FieldPath } from '../sheet/path.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Absent, Figure, Outcome } from './figure.ts';
import { isKnown, isLeaf, type Node, type Sight } from './node.ts';
import type { Source } from './source.ts';

/** Quantities that are taken at another value than their nominal one. */
export type Moved = ReadonlyMap<Quantity, number>;

const NOTHING_MOVED: Moved = new Map();

type Entry = { outcome: Outcome<unknown>; used: readonly Node<unknown>[] };

/** A node that failed in a way no input should be able to cause. */
export type Fault = { where: string; error: unknown };

/**
 * Evaluates nodes of one stage when they are asked for and remembers them. One derived from another computes again only
 * what stands on a field that differs.
 */
export class Worksheet implements Sight {
  private readonly faulty = new Map<Node<unknown>, unknown>();
  private readonly entries = new Map<Node<unknown>, Entry>();
  private readonly differs = new Map<Node<unknown>, boolean>();
  private asking: Node<unknown>[] | undefined;

  constructor(
    readonly source: Source,
    private readonly moved: Moved = NOTHING_MOVED,
    private base?: Worksheet,
  ) {}

  /** Nodes that failed in a way no input should be able to cause. */
  get faults(): Fault[] {
    return [...this.faulty].map(([{ id }, error]) => ({ where: id, error }));
  }

  /** The same stage with other values, or with quantities at other ends of their tolerance. */
  derive(source: Source, moved: Moved = NOTHING_MOVED): Worksheet {
    return new Worksheet(source, moved, this);
  }

  /** Takes over what the base has worked out and still holds, and lets go of the base. */
  settle(): void {
    for (const [node, entry] of this.base?.entries ?? []) {
      if (this.entries.has(node) || this.isTouched(node)) continue;
      this.entries.set(node, entry);
      if (this.base?.faulty.has(node)) this.faulty.set(node, this.base.faulty.get(node));
    }
    delete this.base;
    this.differs.clear();
  }

  readonly pick = (quantity: Quantity): number => this.moved.get(quantity) ?? quantity.value;

  see<T>(node: Node<T>): Outcome<T> {
    this.asking?.push(node);
    return (this.entry(node) ?? this.evaluate(node)).outcome as Outcome<T>;
  }

  /** The nodes that an outcome was worked out of. */
  usedBy(node: Node<unknown>): readonly Node<unknown>[] {
    return (this.entry(node) ?? this.evaluate(node)).used;
  }

  private entry(node: Node<unknown>): Entry | undefined {
    const own = this.entries.get(node);
    if (own || !this.base) return own;
    return this.isTouched(node) ? undefined : this.base.entry(node);
  }

  private evaluate(node: Node<unknown>): Entry {
    const outer = this.asking;
    const used: Node<unknown>[] = [];
    this.asking = used;
    let outcome: Outcome<unknown>;
    try {
      outcome = node.evaluate(this);
    } catch (error) {
      this.faulty.set(node, error);
      outcome = { lacks: [], impossible: 'This figure failed in an unexpected way; the rest is computed.' };
    } finally {
      this.asking = outer;
    }
    const entry = { outcome, used };
    this.entries.set(node, entry);
    return entry;
  }

  /** Whether a node stands on something that differs from the base. */
  isTouched(node: Node<unknown>): boolean {
    const known = this.differs.get(node);
    if (known !== undefined) return known;
    const found = this.isMoved(node) || (this.base?.entry(node)?.used.some((used) => this.isTouched(used)) ?? true);
    this.differs.set(node, found);
    return found;
  }

  private isMoved(node: Node<unknown>): boolean {
    if (!isLeaf(node) || !this.base) return false;
    const raw = node.raw(this.source);
    if (raw !== node.raw(this.base.source) || (node.path && isElsewhere(node.path, this.source, this.base.source)))
      return true;
    return this.moved !== this.base.moved && (holds(raw, this.moved) || holds(raw, this.base.moved));
  }
}

/** Whether two sheets say the same field at different places. */
function isElsewhere(path: FieldPath, one: Source, other: Source): boolean {
  const [place, before] = [one.place(path), other.place(path)];
  return place !== before && (place.length !== before.length || place.some((step, index) => step !== before[index]));
}

function holds(raw: unknown, moved: Moved): boolean {
  if (moved.size === 0 || typeof raw !== 'object' || raw === null) return false;
  return Array.isArray(raw) ? raw.some((inner) => holds(inner, moved)) : moved.has(raw as Quantity);
}

/** The figure an outcome is, if it is known. */
export function figureIn(outcome: Outcome<number>): Figure | undefined {
  return isKnown(outcome) ? (outcome.terms[0] as Figure) : undefined;
}

/** What keeps an outcome from being known. */
export function absentIn(outcome: Outcome<unknown>): Absent | undefined {
  return isKnown(outcome) ? undefined : outcome;
}
