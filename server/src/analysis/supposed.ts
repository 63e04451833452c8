import { isKnown, type Outcome } from './figure.ts';
import type { Node, Sight } from './node.ts';
import type { Entry, Worksheet } from './worksheet.ts';

/** Values by the id of the node that is supposed to have them. */
export type Suppositions = ReadonlyMap<string, unknown>;

/** The nodes of a stage as they would be if some of them had other values. What does not stand on these is as it is. */
export class Supposed implements Sight {
  private readonly outcomes = new Map<Node<unknown>, Outcome<unknown>>();
  private readonly touched = new Map<Entry, boolean>();

  constructor(
    private readonly nominal: Worksheet,
    private readonly suppositions: Suppositions,
  ) {}

  get source() {
    return this.nominal.source;
  }

  get pick() {
    return this.nominal.pick;
  }

  see<T>(node: Node<T>): Outcome<T> {
    const entry = this.nominal.entryOf(node);
    if (!this.isTouched(entry)) return entry.outcome as Outcome<T>;
    let outcome = this.outcomes.get(node);
    if (!outcome) {
      const { id } = node;
      outcome = this.suppositions.has(id) ? { value: this.suppositions.get(id) } : node.evaluate(this);
      this.outcomes.set(node, outcome);
    }
    return outcome as Outcome<T>;
  }

  /** A number as it would be; nothing where it cannot be had. */
  number(node: Node<number>): number | undefined {
    const outcome = this.see(node);
    return isKnown(outcome) && Number.isFinite(outcome.value) ? outcome.value : undefined;
  }

  /** Whether an entry is supposed to be different or stands on one that is. */
  private isTouched(entry: Entry): boolean {
    let touched = this.touched.get(entry);
    if (touched === undefined) {
      const { node, outcome, used } = entry;
      const isSupposed = this.suppositions.has(node.id) && isKnown(outcome);
      touched = isSupposed || used.some((one) => this.isTouched(one));
      this.touched.set(entry, touched);
    }
    return touched;
  }
}
