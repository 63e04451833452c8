import type { ShelfPart } from '../sheet/shelf.ts';
import type { Bits } from './fields-read.ts';

/** Parts that were refused together, by the slots on which the refusal stands: whatever else is chosen, they will be again. */
export class Refused {
  private readonly bySlots = new Map<Bits, Set<string>>();

  /** @param slots how many slots there are */
  constructor(private readonly slots: number) {}

  add(bits: Bits, parts: readonly ShelfPart[]): void {
    const known = this.bySlots.get(bits) ?? new Set();
    this.bySlots.set(bits, known.add(this.keyOf(bits, parts)));
  }

  /** Whether the newest of the parts chosen so far was refused with some of the others, or alone. */
  holds(parts: readonly ShelfPart[]): boolean {
    return this.isIn(parts, (bits) => bits >> (parts.length - 1) === 1);
  }

  /** Whether any of the parts were refused. */
  holdsAny(parts: readonly ShelfPart[]): boolean {
    return this.isIn(parts, () => true);
  }

  private isIn(parts: readonly ShelfPart[], isAsked: (bits: Bits) => boolean): boolean {
    for (const [bits, known] of this.bySlots) if (isAsked(bits) && known.has(this.keyOf(bits, parts))) return true;
    return false;
  }

  private keyOf(bits: Bits, parts: readonly ShelfPart[]): string {
    let key = '';
    for (let slot = 0; slot < this.slots; slot++) if (bits & (1 << slot)) key += `${parts[slot]?.id} `;
    return key;
  }
}
