import { pumpCircuit } from '../analysis/circuits.ts';
import type { Estimate } from '../analysis/figure.ts';
import { RATED_VOLTAGE } from '../analysis/fuel-network.ts';
import { pumpMargin, requiredPressure } from '../analysis/supply.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import type { Points } from '../units/quantity.ts';
import { nextPump } from './pump-sizes.ts';
import { reliefFor, USUAL_RELIEF } from './relief.ts';
import { coarselyUp, roundedUp } from './size.ts';

/** Pressure of the curve's lower point over the need, and the flow there: a flat turbine pump. Common practice. */
const LOW_POINT = { pressure: 0.7, flow: 1.15 };
/** Highest pressure the chosen pump is known at, over the need. */
const HIGH_POINT = 1.1;
/** What such a pump gives at the need over its flow at the highest pressure. */
const GAIN = 1.04;

/**
 * A pump with 10 to 30 % over the delivery the stage needs with its reserve at the pressure rise, Pa, written as a curve of two points. The volts that
 * arrive at the pump are counted in, and the bad ends of tolerances.
 */
export function largerPump(
  { values, see }: Pick<Situation, 'values' | 'see'>,
  need: { delivery: Estimate; pressure: number },
): Repair[] {
  const pump = values['fuel-system']?.pump;
  const curve = pump?.['flow-at'] as Points | undefined;
  const [like] = curve ?? [];
  if (!pump || !like) return [];
  const rated = pump['rated-voltage']?.value ?? RATED_VOLTAGE;
  const voltage = see(pumpCircuit.voltage);
  const weaker = Math.min(1, (voltage?.low ?? voltage?.value ?? rated) / rated);
  const runs = pump.arrangement === 'spare' || pump.arrangement === 'single' ? 1 : (pump.quantity ?? 1);
  const chosen = nextPump((need.delivery.high ?? need.delivery.value) / weaker / runs / GAIN, like[1]);
  if (!chosen) return [];
  const flow = chosen.value;
  const pressure = Math.max(need.pressure, see(requiredPressure)?.value ?? 0);
  const highest = coarselyUp(pressure * HIGH_POINT, like[0]);
  const curveOf = (share: number) => [
    [roundedUp(pressure * LOW_POINT.pressure, like[0]), roundedUp(flow * LOW_POINT.flow * share, like[1])],
    [highest, share === 1 ? chosen.text : roundedUp(flow * share, like[1])],
  ];
  const second = pump['low-voltage']?.voltage;
  const relief = pump['relief-pressure'];
  return [
    {
      title: `Fit ${runs > 1 ? `${runs} pumps, each of` : 'a pump of'} ${chosen.text} at ${highest}`,
      set: {
        'fuel-system.pump.flow-at': curveOf(1),
        ...(relief &&
          relief.value < pressure * USUAL_RELIEF && {
            'fuel-system.pump.relief-pressure': reliefFor(pressure, relief),
          }),
        ...(second && { 'fuel-system.pump.low-voltage.flow-at': curveOf(second.value / rated) }),
      },
      shows: pumpMargin,
    },
  ];
}
