import fc from 'fast-check';
import type { Line } from '../../../server/src/engineering/lines.ts';
import type { FuelNetwork } from '../../../server/src/engineering/network.ts';
import { type Pump, type PumpTest, pumpFromTests } from '../../../server/src/engineering/pump.ts';

export const LITER_PER_HOUR = 1e-3 / 3600;

/** A number from `low` to `high`, in a million steps. */
export function between(low: number, high: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => low + ((high - low) * step) / 1_000_000);
}

/** What no quantity may be. */
export const noNumbers = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

/** A pump's test of one to seven points, not only at zero pressure, its flow falling or level. */
export const pumpTest: fc.Arbitrary<PumpTest> = fc
  .record({
    voltage: between(9, 14),
    first: between(80, 500),
    falls: fc.array(fc.record({ pressure: between(20e3, 200e3), share: between(0, 0.4) }), { maxLength: 6 }),
    startsAtZero: fc.boolean(),
  })
  .map(({ voltage, first, falls, startsAtZero }) => {
    let pressure = startsAtZero && falls.length > 0 ? 0 : 100e3;
    let flow = first;
    const points = [{ pressure, flow: flow * LITER_PER_HOUR }];
    for (const fall of falls) {
      pressure += fall.pressure;
      flow *= 1 - fall.share;
      points.push({ pressure, flow: flow * LITER_PER_HOUR });
    }
    return { voltage, points };
  });

export const pump: fc.Arbitrary<Pump> = pumpTest.map((test) => pumpFromTests([test]));

export const line: fc.Arbitrary<Line> = fc.record({
  diameter: between(0.003, 0.016),
  length: between(0.1, 8),
  roughness: between(0, 2e-5),
  elbows90: fc.nat(8),
  elbows45: fc.nat(4),
  rise: between(-0.8, 0.8),
});

export const liquid = fc.record({ density: between(680, 830), viscosity: between(3e-7, 3e-6) });

/** A whole fuel system with one or two pumps, with or without a return line. */
export const network: fc.Arbitrary<FuelNetwork> = fc.record({
  liquid,
  suction: fc.array(line, { maxLength: 1 }),
  preFilter: fc.option(
    fc.record({ flow: between(1e-5, 2e-4), loss: between(0, 8e3), law: fc.constantFrom('linear', 'quadratic') }),
    { nil: undefined },
  ),
  pumps: fc.array(
    fc.record({
      pump,
      voltage: between(8, 15),
      role: fc.constant('main' as const),
      quantity: fc.integer({ min: 1, max: 2 }),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  feed: fc.array(line, { maxLength: 2 }),
  filter: fc.option(
    fc.record({ flow: between(1e-5, 2e-4), loss: between(0, 40e3), law: fc.constantFrom('linear', 'quadratic') }),
    { nil: undefined },
  ),
  regulator: fc.record({
    setting: between(60e3, 600e3),
    reference: between(-30e3, 150e3),
    place: fc.constantFrom('rail', 'pump'),
  }),
  return: fc.option(fc.array(line, { maxLength: 2 }), { nil: undefined }),
});

export const consumption = between(0, 500).map((litersPerHour) => litersPerHour * LITER_PER_HOUR);
