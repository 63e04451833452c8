import type { StageSheet } from '../sheet/stages.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Figure, FigureId } from './figure.ts';
import type { Pick } from './worksheet.ts';

type Figures = ReadonlyMap<FigureId, Figure>;

/**
 * Bounds of every figure from the tolerances of the quantities, by a monotone corner search: each quantity is moved to
 * its low and its high end alone to see which way each figure goes; then each figure is computed with every quantity at
 * the end that lowers it, and at the end that raises it. Exact where a figure is monotone in each quantity over its
 * tolerance, which a low-discrepancy sample checks in the tests. A figure impossible at a corner keeps the ends found.
 */
export function withTolerances(stage: StageSheet, figures: Figures, compute: (pick: Pick) => Figures): Figures {
  const loose = [stage.values, stage.stage, stage.natural].flatMap(looseQuantities);
  const quantities = [...new Set(loose)];
  if (quantities.length === 0) return figures;
  const lows = quantities.map((one) => compute((quantity) => (quantity === one ? one.low : quantity.value)));
  const highs = quantities.map((one) => compute((quantity) => (quantity === one ? one.high : quantity.value)));
  const corners = new Map<string, Figures>();
  const corner = (raised: readonly boolean[]) => {
    const key = raised.map(Number).join('');
    let found = corners.get(key);
    if (!found) {
      const end = new Map(
        quantities.map((quantity, index) => [quantity, raised[index] ? quantity.high : quantity.low]),
      );
      found = compute((quantity) => end.get(quantity) ?? quantity.value);
      corners.set(key, found);
    }
    return found;
  };
  const bounded = new Map<FigureId, Figure>();
  for (const [id, figure] of figures) {
    const rising = quantities.map((_, index) => {
      const low = lows[index]?.get(id)?.value ?? figure.value;
      const high = highs[index]?.get(id)?.value ?? figure.value;
      return high >= low;
    });
    const top = corner(rising).get(id)?.value ?? figure.value;
    const bottom = corner(rising.map((isRising) => !isRising)).get(id)?.value ?? figure.value;
    const alone = [...lows, ...highs].map((each) => each.get(id)?.value ?? figure.value);
    const low = Math.min(bottom, figure.value, ...alone);
    const high = Math.max(top, figure.value, ...alone);
    const isWide = high - low > 1e-9 * Math.max(Math.abs(low), Math.abs(high));
    bounded.set(id, isWide ? { ...figure, low, high } : figure);
  }
  return bounded;
}

/** Fields whose quantities belong to other stages, or that have none. */
const NOT_OF_THE_STAGE = new Set(['stages', 'changes', 'notes']);

/** Every quantity under a value that carries a tolerance. */
export function looseQuantities(value: unknown): Quantity[] {
  if (Array.isArray(value)) return value.flatMap(looseQuantities);
  if (typeof value !== 'object' || value === null) return [];
  if ('dimension' in value) {
    const quantity = value as Quantity;
    return quantity.low === quantity.high ? [] : [quantity];
  }
  return Object.entries(value).flatMap(([name, inner]) => (NOT_OF_THE_STAGE.has(name) ? [] : looseQuantities(inner)));
}
