import { pumpCircuit } from '../analysis/circuits.ts';
import type { Estimate } from '../analysis/figure.ts';
import { RATED_VOLTAGE } from '../analysis/fuel-network.ts';
import { pumpMargin } from '../analysis/supply.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import type { Quantity } from '../units/quantity.ts';
import { roundedUp } from './size.ts';

type Curve = [Quantity, Quantity][];

/** Room over the bare need when another pump is chosen; common practice. */
const HEADROOM = 1.05;
/** Pressure of the curve's lower point over the need, and the flow there: a flat turbine pump. Common practice. */
const LOW_POINT = { pressure: 0.7, flow: 1.15 };
/** Highest pressure the chosen pump is known at, over the need. */
const HIGH_POINT = 1.1;
/** Opening of the relief valve of the chosen pump, over the need. Common practice, from memory. */
const RELIEF = 1.25;

/**
 * A pump with the delivery the stage needs at the pressure rise, Pa, written as a curve of two points. The volts that
 * arrive at the pump are counted in, and the bad ends of tolerances.
 */
export function largerPump(
  { values, see }: Pick<Situation, 'values' | 'see'>,
  need: { delivery: Estimate; pressure: number },
): Repair[] {
  const pump = values['fuel-system']?.pump;
  const curve = pump?.['flow-at'] as Curve | undefined;
  const [like] = curve ?? [];
  if (!pump || !like) return [];
  const rated = pump['rated-voltage']?.value ?? RATED_VOLTAGE;
  const voltage = see(pumpCircuit.voltage);
  const weaker = Math.min(1, (voltage?.low ?? voltage?.value ?? rated) / rated);
  const runs = pump.arrangement === 'spare' || pump.arrangement === 'single' ? 1 : (pump.quantity ?? 1);
  const flow = ((need.delivery.high ?? need.delivery.value) * HEADROOM) / weaker / runs;
  const curveOf = (share: number) => [
    [roundedUp(need.pressure * LOW_POINT.pressure, like[0]), roundedUp(flow * LOW_POINT.flow * share, like[1])],
    [roundedUp(need.pressure * HIGH_POINT, like[0]), roundedUp(flow * share, like[1])],
  ];
  const second = pump['low-voltage']?.voltage;
  const relief = pump['relief-pressure'];
  const full = curveOf(1);
  const [pressure, size] = full[1] as [string, string];
  return [
    {
      title: `Fit ${runs > 1 ? `${runs} pumps, each of` : 'a pump of'} ${size} at ${pressure}`,
      set: {
        'fuel-system.pump.flow-at': full,
        ...(relief &&
          relief.value < need.pressure * RELIEF && {
            'fuel-system.pump.relief-pressure': roundedUp(need.pressure * RELIEF, relief),
          }),
        ...(second && { 'fuel-system.pump.low-voltage.flow-at': curveOf(second.value / rated) }),
      },
      shows: pumpMargin,
    },
  ];
}
