import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  crossingOf,
  currentFromPower,
  pumpCurrent,
  pumpFlow,
  pumpFromTests,
  pumpsFlow,
  zeroFlowPressure,
  zeroFlowPressureOf,
} from '../../../server/src/engineering/pump.ts';
import { requiredDelivery, requiredPressure } from '../../../server/src/engineering/pump-duty.ts';
import { between, LITER_PER_HOUR, noNumbers, pump, pumpTest } from './fuel-systems.ts';

const pressure = between(0, 1.5e6);
const voltage = between(0, 16);
const points = [
  { pressure: 0, flow: 250 * LITER_PER_HOUR, current: 5 },
  { pressure: 300e3, flow: 210 * LITER_PER_HOUR, current: 9 },
  { pressure: 500e3, flow: 160 * LITER_PER_HOUR, current: 12 },
];
const twoCurves = pumpFromTests([
  { voltage: 13.5, points },
  { voltage: 12, points: points.map((point) => ({ ...point, flow: point.flow * 0.84 })) },
]);

describe('a pump', () => {
  it('gives what its points say', () => {
    fc.assert(
      fc.property(pumpTest, (test) => {
        for (const point of test.points) {
          const read = pumpFlow(pumpFromTests([test]), point.pressure, test.voltage);
          expect(read.flow).toBeCloseTo(point.flow, 12);
          expect(read).toMatchObject({ extrapolated: false, estimated: false });
        }
      }),
    );
  });

  it('gives less at a higher pressure, more at a higher voltage, and always a number', () => {
    fc.assert(
      fc.property(pump, pressure, pressure, voltage, voltage, (one, p, q, u, v) => {
        const [low, high] = [Math.min(p, q), Math.max(p, q)];
        expect(pumpFlow(one, low, u).flow).toBeGreaterThanOrEqual(pumpFlow(one, high, u).flow - 1e-15);
        const [weak, strong] = [Math.min(u, v), Math.max(u, v)];
        expect(pumpFlow(one, p, weak).flow).toBeLessThanOrEqual(pumpFlow(one, p, strong).flow);
        expect(Number.isFinite(pumpFlow(one, p, u).flow)).toBe(true);
      }),
    );
  });

  it('says when it is read outside its points', () => {
    fc.assert(
      fc.property(pumpTest, pressure, (test, at) => {
        const first = test.points[0] as (typeof test.points)[number];
        const last = test.points.at(-1) as (typeof test.points)[number];
        const outside = at < first.pressure || (at > last.pressure && last.flow > 0);
        expect(pumpFlow(pumpFromTests([test]), at, test.voltage).extrapolated).toBe(outside);
      }),
    );
  });

  it('gives nothing from its zero-flow pressure on, which is at most half as much again as its last point', () => {
    fc.assert(
      fc.property(pumpTest, (test) => {
        const one = pumpFromTests([test]);
        const zero = zeroFlowPressure(one, test.voltage);
        expect(pumpFlow(one, zero, test.voltage).flow).toBe(0);
        expect(zero).toBeLessThanOrEqual(1.5 * (test.points.at(-1)?.pressure ?? 0) + 1e-6);
      }),
    );
  });

  it('scales with the voltage away from its one curve and says that this is an estimate', () => {
    const one = pumpFromTests([{ voltage: 13.5, points }]);
    const read = pumpFlow(one, 300e3, 12.15);
    expect(read.estimated).toBe(true);
    expect(read.flow / LITER_PER_HOUR).toBeCloseTo(189, 9);
    expect(pumpFlow(one, 300e3, 0).flow).toBe(0);
  });

  it('is read between two curves without an estimate, and beyond them with one', () => {
    const read = pumpFlow(twoCurves, 300e3, 12.75);
    expect(read).toMatchObject({ estimated: false, extrapolated: false });
    expect(read.flow / LITER_PER_HOUR).toBeCloseTo(210 * 0.92, 9);
    expect(pumpFlow(twoCurves, 300e3, 10).estimated).toBe(true);
    expect(pumpFlow(twoCurves, 300e3, 14.5).estimated).toBe(true);
  });

  it('takes its current from its points where these carry one', () => {
    expect(pumpCurrent(twoCurves, 300e3, 13.5)).toEqual({ current: 9, extrapolated: false, estimated: false });
    expect(pumpCurrent(twoCurves, 900e3, 13.5)).toEqual({ current: 12, extrapolated: true, estimated: false });
    const single = pumpFromTests([{ voltage: 13.5, points: points.slice(1, 2) }]);
    expect(pumpCurrent(single, 300e3, 12)).toEqual({ current: 9, extrapolated: false, estimated: true });
    const without = pumpFromTests([{ voltage: 13.5, points: points.map(({ current, ...rest }) => rest) }]);
    expect(pumpCurrent(without, 300e3, 13.5)).toBeUndefined();
  });

  it('refuses curves that no pump has', () => {
    const refuse = (test: (typeof points)[number][], words: string) =>
      expect(() => pumpFromTests([{ voltage: 13.5, points: test }])).toThrow(words);
    expect(() => pumpFromTests([])).toThrow('A pump needs a curve');
    refuse([], 'has no points');
    refuse([points[1], points[0], points[2]] as typeof points, 'rising order of pressure');
    refuse([points[0], points[0]] as typeof points, 'rising order of pressure');
    refuse(
      [
        { pressure: 0, flow: 1e-5, current: 1 },
        { pressure: 1e5, flow: 2e-5, current: 1 },
      ],
      'delivers less',
    );
    refuse([{ pressure: 0, flow: 0, current: 1 }], 'no flow at any pressure');
    refuse([{ pressure: 0, flow: 1e-5, current: 1 }], 'its flow at a pressure is needed');
    for (const value of [...noNumbers, -1]) {
      refuse([{ pressure: value, flow: 1e-5, current: 1 }], 'The pressure of point 1');
      refuse([{ pressure: 0, flow: value, current: 1 }], 'The flow of point 1');
      refuse([{ pressure: 0, flow: 1e-5, current: value }], 'The current of point 1');
      expect(() => pumpFromTests([{ voltage: value, points }])).toThrow('The voltage');
      expect(() => pumpFlow(twoCurves, value, 13)).toThrow('The pressure at the pump');
      expect(() => pumpFlow(twoCurves, 1e5, value)).toThrow('The voltage at the pump');
      expect(() => pumpCurrent(twoCurves, value, 13)).toThrow(RangeError);
      expect(() => zeroFlowPressure(twoCurves, value)).toThrow(RangeError);
    }
    expect(() =>
      pumpFromTests([
        { voltage: 12, points },
        { voltage: 12, points },
      ]),
    ).toThrow('two curves at 12 V');
    expect(() =>
      pumpFromTests([{ voltage: 12, points: [points[0] as (typeof points)[0], { pressure: 1e5, flow: 1e-6 }] }]),
    ).toThrow('some points only');
  });
});

describe('pumps together', () => {
  it('add their flows side by side, and a spare adds nothing', () => {
    fc.assert(
      fc.property(pump, pump, pressure, voltage, (one, other, at, volts) => {
        const main = { pump: one, voltage: volts, role: 'main' as const, quantity: 2 };
        const staged = { pump: other, voltage: volts, role: 'staged' as const, quantity: 1 };
        const spare = { pump: other, voltage: volts, role: 'spare' as const, quantity: 1 };
        const two = 2 * pumpFlow(one, at, volts).flow;
        expect(pumpsFlow([main, spare], at, true).flow).toBe(two);
        expect(pumpsFlow([main, staged], at, false).flow).toBe(two);
        expect(pumpsFlow([main, staged], at, true).flow).toBe(two + pumpFlow(other, at, volts).flow);
        expect(zeroFlowPressureOf([spare], true)).toBe(0);
      }),
    );
  });

  it('come in whole numbers', () => {
    for (const quantity of [0, 1.5, -1, Number.NaN]) {
      const unit = { pump: twoCurves, voltage: 13, role: 'main' as const, quantity };
      expect(() => pumpsFlow([unit], 1e5, false)).toThrow('whole number');
    }
  });
});

describe('what a pump must do', () => {
  it('grows with demand, reserve, boost and losses', () => {
    expect(requiredDelivery(0, 745)).toBe(0);
    expect(requiredDelivery(0.02, 745, 0.3)).toBeGreaterThan(requiredDelivery(0.02, 745, 0.2));
    const supply = { setting: 400e3, reference: 0, feedLoss: 10e3, filterLoss: 5e3, rise: 0.5, density: 745 };
    const base = requiredPressure(supply);
    expect(requiredPressure({ ...supply, reference: 80e3 })).toBeCloseTo(base + 80e3, 6);
    expect(requiredPressure({ ...supply, rise: -0.5 })).toBeLessThan(base);
  });

  it('refuses what cannot be', () => {
    const supply = { setting: 400e3, reference: 0, feedLoss: 10e3, filterLoss: 5e3, rise: 0.5, density: 745 };
    for (const value of noNumbers) {
      for (const name of Object.keys(supply)) {
        expect(() => requiredPressure({ ...supply, [name]: value })).toThrow(RangeError);
      }
      expect(() => requiredDelivery(value, 745)).toThrow('The fuel demand');
      expect(() => requiredDelivery(0.01, value)).toThrow('The density');
      expect(() => requiredDelivery(0.01, 745, value)).toThrow('The reserve');
    }
    expect(() => currentFromPower(3e5, 5e-5, 13, 0)).toThrow('efficiency');
    expect(() => currentFromPower(3e5, 5e-5, 13, 1.1)).toThrow('efficiency');
    expect(() => currentFromPower(3e5, 5e-5, 0)).toThrow('voltage');
  });
});

describe('curves at two voltages', () => {
  it('cross where the one at less voltage gives more', () => {
    const weaker = (factor: (pressure: number) => number) =>
      pumpFromTests([
        { voltage: 13.5, points },
        { voltage: 12, points: points.map((point) => ({ ...point, flow: point.flow * factor(point.pressure) })) },
      ]);
    expect(crossingOf(twoCurves)).toBeUndefined();
    expect(crossingOf(weaker(() => 1.05))).toBe(0);
    expect(crossingOf(weaker((at) => 0.9 + at / 2e6))).toBe(300e3);
    expect(crossingOf(pumpFromTests([{ voltage: 12, points }]))).toBeUndefined();
  });
});
