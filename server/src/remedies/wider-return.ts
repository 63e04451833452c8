import type { FigureNode } from '../analysis/node.ts';
import { returnBackPressureShare } from '../analysis/supply.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import { boresAbove } from './bore.ts';

/** Pressure loss at a given flow falls with about this power of the bore: turbulent flow in a smooth tube (Blasius). */
const LOSS_BY_BORE = 4.75;

/** Return lines that hold up no more than the limit, the next sizes up. */
export function widerReturn(
  { values, see, limit }: Pick<Situation, 'values' | 'see' | 'limit'>,
  shows: FigureNode,
): Repair[] {
  const bore = values['fuel-system']?.return?.['inside-diameter'];
  const share = see(returnBackPressureShare);
  if (!bore || !share) return [];
  const least = bore.value * ((share.high ?? share.value) / limit('return-share')) ** (1 / LOSS_BY_BORE);
  return boresAbove(bore, least)
    .slice(0, 2)
    .map((wider) => ({
      title: `Run a return line of ${wider}`,
      set: { 'fuel-system.return.inside-diameter': wider },
      shows,
    }));
}
