import { hungriest } from '../analysis/operating-points.ts';
import { railPressureSet } from '../analysis/regulator.ts';
import {
  filterInletPressure,
  pumpDeliveryAlone,
  pumpMargin,
  pumpOutletPressure,
  railPressure,
  requiredDelivery,
} from '../analysis/supply.ts';
import type { Situation } from '../checking/rule.ts';

type Loss = { part: 'feed' | 'filter'; loss: number };

/** Whether the pump cannot hold the regulator at its setting at full power, so that less is left at the injectors. */
export function railSags({ know }: Pick<Situation, 'know'>): boolean {
  const regulation = know(hungriest)?.regulation;
  return regulation === 'sags' || regulation === 'starved';
}

/** Share of the set pressure that lines and filter must take to be the cause. */
const NOTABLE = 0.1;

/**
 * The part with the larger loss, Pa, where the pump is short although it alone has the flow at the set pressure: the way
 * to the rail is the cause and not the pump.
 */
export function wayTooNarrow({ see, values }: Pick<Situation, 'see' | 'values'>): Loss | undefined {
  const [alone, required, margin] = [see(pumpDeliveryAlone), see(requiredDelivery), see(pumpMargin)];
  if (!alone || !required || !margin || margin.value >= 0 || alone.value < required.value) return undefined;
  const [outlet, inlet, rail, set] = [
    see(pumpOutletPressure),
    see(filterInletPressure),
    see(railPressure),
    see(railPressureSet),
  ];
  if (!outlet || !inlet || !rail || !set || outlet.value - rail.value < NOTABLE * set.value) return undefined;
  const losses: Loss[] = [
    { part: 'feed', loss: outlet.value - inlet.value },
    { part: 'filter', loss: inlet.value - rail.value },
  ];
  const system = values['fuel-system'];
  const described = { feed: system?.feed?.['inside-diameter'], filter: system?.filter?.loss };
  return losses.filter(({ part }) => described[part]).toSorted((one, other) => other.loss - one.loss)[0];
}
