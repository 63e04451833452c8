import type { Quantity } from '../units/quantity.ts';
import { type Absent, type Bounds, isKnown, type Outcome, type Term } from './figure.ts';
import { isLeaf, type Node, type Showing } from './node.ts';
import type { Source } from './source.ts';

/**
 * What came of a node: its outcome, what it was worked out of in the order in which it asked, and what stood in the sheet
 * where it read. The ends it can reach and the loose quantities under it are kept here once they were asked for.
 */
export type Entry = {
  readonly node: Node<unknown>;
  readonly outcome: Outcome<unknown>;
  readonly used: readonly Entry[];
  readonly raw: unknown;
  readonly fault?: { error: unknown };
  loose: ReadonlySet<Quantity> | undefined;
  bounds: Bounds | 'none' | undefined;
};

/** Entries by the numbers of their nodes. */
export type Known = readonly (Entry | undefined)[];

/** A node that failed in a way no input should be able to cause. */
export type Fault = { where: string; error: unknown };

const NOTHING: readonly Entry[] = [];

/**
 * Evaluates nodes of one stage when they are asked for and remembers them. What another worksheet, of the stage before or
 * of an earlier version, has worked out of the same is taken over.
 */
export class Worksheet implements Showing {
  private readonly entries: (Entry | undefined)[];
  private shown: Map<Node<unknown>, readonly Term[]> | undefined;
  private asking: Entry[] | undefined;

  /** `others`: where to look for what is worked out already; `known`: what is sure to hold here, by the number of its node. */
  constructor(
    readonly source: Source,
    private others: readonly Worksheet[] = [],
    known: Known = [],
  ) {
    this.entries = [...known];
  }

  /** Nodes that failed in a way no input should be able to cause. */
  get faults(): Fault[] {
    return this.entries.flatMap((entry) => (entry?.fault ? [{ where: entry.node.id, error: entry.fault.error }] : []));
  }

  /** All that was asked for so far. */
  get known(): Known {
    return this.entries;
  }

  /** Lets go of the worksheets it takes over from. */
  settle(): void {
    this.others = [];
  }

  readonly pick = (quantity: Quantity): number => quantity.value;

  see<T>(node: Node<T>): Outcome<T> {
    const entry = this.entryOf(node);
    this.asking?.push(entry);
    return entry.outcome as Outcome<T>;
  }

  /** What to show of where a known value came from. */
  termsOf(node: Node<unknown>): readonly Term[] {
    this.shown ??= new Map();
    let terms = this.shown.get(node);
    if (!terms) {
      terms = node.terms(this);
      this.shown.set(node, terms);
    }
    return terms;
  }

  /** What is known of a node, worked out or taken over if it was not asked for yet. */
  entryOf(node: Node<unknown>): Entry {
    let entry = this.entries[node.index];
    if (!entry) {
      entry = this.takenOver(node) ?? this.worked(node);
      this.entries[node.index] = entry;
    }
    return entry;
  }

  private takenOver(node: Node<unknown>): Entry | undefined {
    for (const other of this.others) {
      const entry = other.entries[node.index];
      if (entry && this.holds(entry)) return entry;
    }
    return undefined;
  }

  /** Whether an entry of another worksheet says the same of this stage; nothing is asked that the node would not ask. */
  private holds({ node, raw, used }: Entry): boolean {
    if (isLeaf(node) && node.raw(this.source) !== raw) return false;
    for (const entry of used) if (this.entryOf(entry.node) !== entry) return false;
    return true;
  }

  private worked(node: Node<unknown>): Entry {
    const raw = isLeaf(node) ? node.raw(this.source) : undefined;
    const outer = this.asking;
    const used: Entry[] = [];
    this.asking = used;
    try {
      const outcome = node.evaluate(this);
      return { node, outcome, used: used.length > 0 ? used : NOTHING, raw, loose: undefined, bounds: undefined };
    } catch (error) {
      return { node, outcome: FAILED, used, raw, fault: { error }, loose: undefined, bounds: undefined };
    } finally {
      this.asking = outer;
    }
  }
}

const FAILED: Absent = { lacks: [], impossible: 'This figure failed in an unexpected way; the rest is computed.' };

/** What keeps an outcome from being known. */
export function absentIn(outcome: Outcome<unknown>): Absent | undefined {
  return isKnown(outcome) ? undefined : outcome;
}
