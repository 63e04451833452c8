import type { Quantity } from '../units/quantity.ts';
import type { FigureNode, Node } from './node.ts';
import { isKnown, isLeaf } from './node.ts';
import type { Worksheet } from './worksheet.ts';

const NONE: ReadonlySet<Quantity> = new Set();

/** The ends a figure can reach. */
export type Bounds = { low: number; high: number };

/**
 * Bounds of figures from the tolerances of the quantities they stand on, by a monotone corner search: each quantity is
 * moved to its low and its high end alone to see which way the figure goes; then the figure is computed with every
 * quantity at the end that lowers it, and at the end that raises it. Exact where a figure is monotone in each quantity
 * over its tolerance, which a low-discrepancy sample checks in the tests. Impossible at a corner, a figure keeps the ends
 * found. Corners are shared by all figures; each computes only what depends on what is moved.
 */
export class Tolerances {
  private readonly alone = new Map<Quantity, { low: Worksheet; high: Worksheet }>();
  private readonly corners = new Map<string, Worksheet>();
  private readonly numbers = new Map<Quantity, number>();
  private readonly under = new Map<Node<unknown>, ReadonlySet<Quantity>>();

  constructor(private readonly nominal: Worksheet) {}

  /** The ends of a figure, or nothing where no tolerance moves it. */
  boundsOf(figure: FigureNode, value: number): Bounds | undefined {
    const loose = [...this.looseUnder(figure)];
    if (loose.length === 0) return undefined;
    const ends = loose.map((quantity) => this.aloneAt(quantity, figure, value));
    const top = this.cornerAt(loose, (index) => isRising(ends[index]), figure) ?? value;
    const bottom = this.cornerAt(loose, (index) => !isRising(ends[index]), figure) ?? value;
    const found = [value, top, bottom, ...ends.flatMap(({ low, high }) => [low, high])];
    const [low, high] = [Math.min(...found), Math.max(...found)];
    return high - low > 1e-9 * Math.max(Math.abs(low), Math.abs(high)) ? { low, high } : undefined;
  }

  /** The quantities with a tolerance under a node, found once a node. */
  private looseUnder(node: Node<unknown>): ReadonlySet<Quantity> {
    const known = this.under.get(node);
    if (known) return known;
    const own = isLeaf(node) ? looseQuantities(node.raw(this.nominal.source)) : [];
    let found: ReadonlySet<Quantity> = own.length ? new Set(own) : NONE;
    for (const used of this.nominal.usedBy(node)) {
      const below = this.looseUnder(used);
      if (below.size > 0) found = found.size > 0 ? new Set([...found, ...below]) : below;
    }
    this.under.set(node, found);
    return found;
  }

  private aloneAt(quantity: Quantity, figure: FigureNode, otherwise: number): Bounds {
    let both = this.alone.get(quantity);
    if (!both) {
      const at = (value: number) => this.nominal.derive(this.nominal.source, new Map([[quantity, value]]));
      both = { low: at(quantity.low), high: at(quantity.high) };
      this.alone.set(quantity, both);
    }
    return { low: valueIn(both.low, figure) ?? otherwise, high: valueIn(both.high, figure) ?? otherwise };
  }

  private cornerAt(loose: readonly Quantity[], isHigh: (index: number) => boolean, figure: FigureNode) {
    const key = loose.map((quantity, index) => `${this.numberOf(quantity)}${isHigh(index) ? '+' : '-'}`).join('');
    let corner = this.corners.get(key);
    if (!corner) {
      const moved = new Map(loose.map((quantity, index) => [quantity, isHigh(index) ? quantity.high : quantity.low]));
      corner = this.nominal.derive(this.nominal.source, moved);
      this.corners.set(key, corner);
    }
    return valueIn(corner, figure);
  }

  private numberOf(quantity: Quantity): number {
    const known = this.numbers.get(quantity) ?? this.numbers.size;
    this.numbers.set(quantity, known);
    return known;
  }
}

function isRising(ends: Bounds | undefined): boolean {
  return ends !== undefined && ends.high >= ends.low;
}

function valueIn(worksheet: Worksheet, figure: FigureNode): number | undefined {
  const outcome = worksheet.see(figure);
  return isKnown(outcome) ? outcome.value : undefined;
}

/** Every quantity with a tolerance in what stands at a field. */
function looseQuantities(value: unknown): Quantity[] {
  if (Array.isArray(value)) return value.flatMap(looseQuantities);
  if (typeof value !== 'object' || value === null || !('dimension' in value)) return [];
  const quantity = value as Quantity;
  return quantity.low === quantity.high ? [] : [quantity];
}
