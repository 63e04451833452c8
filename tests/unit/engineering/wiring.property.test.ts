import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ampacity, bladeFuses, fuseLimit, fuseRating } from '../../../server/src/engineering/fuses.ts';
import { pumpFromTests, trustedVoltage } from '../../../server/src/engineering/pump.ts';
import {
  awgArea,
  awgDiameter,
  awgNumber,
  copperArea,
  flexibleWireResistance,
  metricWireResistance,
  stockedAreas,
  stockedGauges,
  thinnestWire,
  vehicleGaugeArea,
  type WireKind,
  wireResistance,
} from '../../../server/src/engineering/wire.ts';
import {
  chargingBalance,
  crankingVoltages,
  largestResistance,
  voltageDrop,
} from '../../../server/src/engineering/wiring.ts';
import { between, noNumbers } from './fuel-systems.ts';

const gauge = fc.integer({ min: -3, max: 22 });
describe('wire gauges', () => {
  it('are found again from their area', () => {
    fc.assert(
      fc.property(gauge, (number) => {
        expect(awgNumber(awgArea(number))).toBeCloseTo(number, 9);
      }),
    );
  });

  it('end at 4/0', () => {
    expect(awgDiameter(-3)).toBeCloseTo(0.46 * 0.0254, 9);
    expect(() => awgDiameter(-4)).toThrow('wire gauge');
    expect(() => awgDiameter(41)).toThrow('wire gauge');
  });
});

const kind = fc.constantFrom<WireKind>('gauge', 'metric');

describe('vehicle wire', () => {
  it('holds no more copper in a gauge than its area says, and more the thicker it is', () => {
    fc.assert(
      fc.property(between(-3, 39), between(0.01, 1), (number, step) => {
        expect(vehicleGaugeArea(number)).toBeLessThanOrEqual(awgArea(number) * (1 + 1e-9));
        expect(vehicleGaugeArea(number + step)).toBeLessThanOrEqual(vehicleGaugeArea(number) * (1 + 1e-9));
        expect(copperArea(awgArea(number), 'gauge') / vehicleGaugeArea(number)).toBeCloseTo(1, 6);
      }),
    );
    expect(() => vehicleGaugeArea(41)).toThrow('wire gauge');
  });

  it('resists less the thicker it is, in metric sizes over all the schema allows', () => {
    fc.assert(
      fc.property(between(0.05, 299), between(1, 1.2), between(260, 400), (square, factor, kelvin) => {
        const thin = metricWireResistance(square * 1e-6, kelvin);
        expect(metricWireResistance(Math.min(300, square * factor) * 1e-6, kelvin)).toBeLessThanOrEqual(thin * 1.0001);
        const nominal = wireResistance(square * 1e-6, kelvin);
        expect(thin / nominal).toBeGreaterThan(1);
        expect(thin / nominal).toBeLessThan(1.2);
      }),
    );
    expect(() => metricWireResistance(0.04e-6, 300)).toThrow('mm2');
    expect(() => metricWireResistance(301e-6, 300)).toThrow('mm2');
  });

  it('named as the thinnest keeps the drop, and the next thinner size does not', () => {
    fc.assert(
      fc.property(
        kind,
        between(1, 60),
        between(0.1, 1),
        between(0.5, 8),
        between(260, 380),
        (of, amps, drop, way, kelvin) => {
          const largest = largestResistance({ current: amps, drop, length: way, returnLength: way });
          const size = thinnestWire(largest, of, kelvin);
          const sizes = of === 'metric' ? stockedAreas : stockedGauges.map(awgArea);
          const lost = (area: number) =>
            voltageDrop(
              {
                resistancePerMeter: flexibleWireResistance(area, of, kelvin),
                length: way,
                returnLength: way,
                connectors: 0,
              },
              amps,
            );
          for (const other of sizes) expect(lost(other) <= drop * (1 + 1e-8)).toBe(size !== undefined && other >= size);
        },
      ),
    );
    expect(thinnestWire(1e-9, 'gauge', 300)).toBeUndefined();
    expect(() => thinnestWire(0, 'gauge', 300)).toThrow('The largest resistance');
    expect(() => largestResistance({ current: 0, drop: 1, length: 1, returnLength: 0 })).toThrow('The current');
  });
});

describe('cranking', () => {
  const usual = { battery: 10, current: 200, cable: 0.001, groundPath: 0.002 };

  it('takes the drop of the ground path from a computer grounded on the engine only', () => {
    expect(crankingVoltages(usual)).toEqual({ starter: 9.4, groundedAtBattery: 10, groundedAtEngine: 9.6 });
    expect(crankingVoltages({ ...usual, current: 1e5 })).toEqual({
      starter: 0,
      groundedAtBattery: 10,
      groundedAtEngine: 0,
    });
    for (const name of Object.keys(usual)) {
      for (const value of [...noNumbers, -1]) {
        expect(() => crankingVoltages({ ...usual, [name]: value })).toThrow(RangeError);
      }
    }
  });
});

describe('the voltage of a pump', () => {
  const points = [{ pressure: 3e5, flow: 5e-5 }];
  const at = (voltage: number) => ({ voltage, points });

  it('is trusted from 85 % of the lowest curve, and a lower curve settles it', () => {
    expect(trustedVoltage(pumpFromTests([at(13.5)]), 11.5)).toBe(11.5);
    expect(() => trustedVoltage(pumpFromTests([at(13.5)]), 11.4)).toThrow('84 % of the 13.5 V');
    expect(trustedVoltage(pumpFromTests([at(13.5), at(12)]), 10.2)).toBe(10.2);
    expect(() => trustedVoltage(pumpFromTests([at(24)]), 13.5)).toThrow(RangeError);
  });
});

describe('the drop in a wire', () => {
  it('grows with current, length, temperature and a thinner wire', () => {
    fc.assert(
      fc.property(gauge, between(260, 380), between(0.1, 30), between(0.1, 8), (number, kelvin, current, length) => {
        const drop = (n: number, t: number, i: number, l: number) =>
          voltageDrop(
            { resistancePerMeter: wireResistance(awgArea(n), t), length: l, returnLength: l, connectors: 0.1 },
            i,
          );
        const base = drop(number, kelvin, current, length);
        expect(drop(number + 1, kelvin, current, length)).toBeGreaterThan(base);
        expect(drop(number, kelvin + 5, current, length)).toBeGreaterThan(base);
        expect(drop(number, kelvin, current * 1.1, length)).toBeGreaterThan(base);
        expect(drop(number, kelvin, current, length * 1.1)).toBeGreaterThan(base);
      }),
    );
  });

  it('refuses what no circuit can be', () => {
    const circuit = { resistancePerMeter: 0.005, length: 5, returnLength: 5, connectors: 0.1 };
    for (const value of [...noNumbers, -1]) {
      for (const name of Object.keys(circuit)) {
        expect(() => voltageDrop({ ...circuit, [name]: value }, 10)).toThrow(RangeError);
      }
      expect(() => voltageDrop(circuit, value)).toThrow('The current');
      expect(() => wireResistance(value, 300)).toThrow("The wire's copper area");
      expect(() => wireResistance(1e-6, value)).toThrow('The wire temperature');
      expect(() => metricWireResistance(value, 300)).toThrow("The wire's nominal area");
      expect(() => awgNumber(value)).toThrow("The wire's copper area");
      expect(() => chargingBalance(value, [1])).toThrow("The alternator's output");
      expect(() => chargingBalance(60, [value])).toThrow('The load');
    }
  });
});

describe('fuses', () => {
  it('carry the current within their loading and are the smallest that do', () => {
    fc.assert(
      fc.property(between(0.1, 80), between(0.5, 1), (current, loading) => {
        const rating = fuseRating(current, loading);
        const smaller = bladeFuses.filter((other) => rating === undefined || other < rating);
        if (rating !== undefined) expect(rating * loading).toBeGreaterThanOrEqual(current * (1 - 1e-8));
        for (const other of smaller) expect(other * loading).toBeLessThan(current);
      }),
    );
  });

  it('do not jump a size where a rating is met exactly', () => {
    for (const rating of bladeFuses) {
      for (const loading of [0.7, 0.75, 0.8, 0.9]) expect(fuseRating(rating * loading, loading)).toBe(rating);
    }
  });

  it('end at the largest blade', () => {
    expect(fuseRating(81, 0.8)).toBeUndefined();
    expect(() => fuseRating(0)).toThrow('The continuous current');
    expect(() => fuseRating(10, 0)).toThrow('The loading of a fuse');
    expect(() => fuseRating(10, 1.2)).toThrow('The loading of a fuse');
    expect(() => fuseRating(Number.NaN)).toThrow(RangeError);
  });

  it('protect a thicker wire at a higher rating, and never more than the wire carries', () => {
    fc.assert(
      fc.property(kind, between(0.2e-6, 90e-6), between(1, 1.15), (of, size, factor) => {
        expect(fuseLimit(size * factor, of)).toBeGreaterThanOrEqual(fuseLimit(size, of));
        expect(fuseLimit(size, of)).toBeLessThanOrEqual(0.8 * ampacity(size, of) * 1.0001);
      }),
    );
    expect(fuseLimit(awgArea(40), 'gauge')).toBe(0);
    expect(() => fuseLimit(0, 'metric')).toThrow(RangeError);
    expect(() => fuseLimit(Number.NaN, 'gauge')).toThrow(RangeError);
  });
});

describe('the charging balance', () => {
  it('adds the loads up and drains the battery when they are more than the output', () => {
    expect(chargingBalance(50, [20, 10])).toEqual({ load: 30, reserve: 20, loading: 0.6 });
    expect(chargingBalance(25, [20, 10]).reserve).toBe(-5);
    expect(chargingBalance(25, [])).toEqual({ load: 0, reserve: 25, loading: 0 });
  });
});
