import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  gasolineVaporPressure,
  suctionHeadAvailable,
  temperatureAtMargin,
  vaporPressureDoubts,
} from '../../../server/src/engineering/suction.ts';
import { between, noNumbers } from './fuel-systems.ts';

const PSI = 6894.757293168;
const reid = between(5, 16).map((psi) => psi * PSI);
const temperature = between(260, 340);
const suction = fc.record({
  tankPressure: between(60e3, 105e3),
  density: between(680, 820),
  rise: between(-0.6, 0.8),
  loss: between(0, 15e3),
});
const sample = { tankPressure: 101325, density: 745, rise: 0.5, loss: 2000 };

describe('the vapor pressure of gasoline', () => {
  it('rises with temperature and Reid vapor pressure', () => {
    fc.assert(
      fc.property(reid, temperature, between(0.1, 20), (volatility, kelvin, more) => {
        const base = gasolineVaporPressure(volatility, kelvin);
        expect(gasolineVaporPressure(volatility, kelvin + more)).toBeGreaterThan(base);
        expect(gasolineVaporPressure(volatility + more * 100, kelvin)).toBeGreaterThan(base);
      }),
    );
  });

  it('is in doubt for alcohol blends and outside the chart', () => {
    const fuel = { reidVaporPressure: 9 * PSI, temperature: 300, alcoholShare: 0 };
    expect(vaporPressureDoubts(fuel)).toEqual([]);
    expect(vaporPressureDoubts({ ...fuel, alcoholShare: 0.1 })).toEqual(['alcohol']);
    expect(vaporPressureDoubts({ ...fuel, temperature: 340 })).toEqual(['temperature']);
    expect(vaporPressureDoubts({ ...fuel, temperature: 250 })).toEqual(['temperature']);
    expect(vaporPressureDoubts({ ...fuel, reidVaporPressure: 1 * PSI })).toEqual(['reid-pressure']);
    expect(vaporPressureDoubts({ reidVaporPressure: 21 * PSI, temperature: 200, alcoholShare: 1 })).toHaveLength(3);
  });

  it('refuses what is no fuel', () => {
    for (const value of [...noNumbers, -1, 0]) {
      expect(() => gasolineVaporPressure(value, 300)).toThrow('The Reid vapor pressure');
      expect(() => gasolineVaporPressure(9 * PSI, value)).toThrow('The fuel temperature');
      expect(() => gasolineVaporPressure(9 * PSI, 300, value)).toThrow('The distillation slope');
    }
    expect(() => vaporPressureDoubts({ reidVaporPressure: 9 * PSI, temperature: 300, alcoholShare: 1.1 })).toThrow(
      'The share of alcohol',
    );
  });
});

describe('the suction head', () => {
  it('shrinks with hotter fuel, altitude, lift and loss', () => {
    fc.assert(
      fc.property(suction, reid, temperature, between(0.1, 15), (side, volatility, kelvin, more) => {
        const head = (state = side, at = kelvin) => suctionHeadAvailable(state, gasolineVaporPressure(volatility, at));
        expect(head(side, kelvin + more)).toBeLessThan(head());
        expect(head({ ...side, tankPressure: side.tankPressure - more * 100 })).toBeLessThan(head());
        expect(head({ ...side, rise: side.rise + more / 100 })).toBeLessThan(head());
        expect(head({ ...side, loss: side.loss + more * 100 })).toBeLessThan(head());
        expect(Number.isFinite(head())).toBe(true);
      }),
    );
  });

  it('equals the margin at the temperature where the margin is gone', () => {
    fc.assert(
      fc.property(suction, reid, between(0, 1), (side, volatility, margin) => {
        const vapor = (kelvin: number) => gasolineVaporPressure(volatility, kelvin);
        const found = temperatureAtMargin(side, vapor, margin);
        const head = suctionHeadAvailable(side, vapor(found.temperature));
        if (found.relation === 'at') expect(head).toBeCloseTo(margin, 5);
        if (found.relation === 'below') expect(head).toBeLessThanOrEqual(margin);
        if (found.relation === 'above') expect(head).toBeGreaterThanOrEqual(margin);
      }),
    );
  });

  it('says when the margin is gone at any temperature, or at none in question', () => {
    const vapor = (kelvin: number) => gasolineVaporPressure(9 * PSI, kelvin);
    expect(temperatureAtMargin({ ...sample, rise: 14 }, vapor, 0.6).relation).toBe('below');
    expect(temperatureAtMargin({ ...sample, tankPressure: 2e6 }, vapor, 0.6).relation).toBe('above');
    expect(temperatureAtMargin(sample, vapor, 0.6).relation).toBe('at');
  });

  it('refuses what no suction side can be', () => {
    for (const value of noNumbers) {
      for (const name of Object.keys(sample)) {
        expect(() => suctionHeadAvailable({ ...sample, [name]: value }, 50e3)).toThrow(RangeError);
      }
      expect(() => suctionHeadAvailable(sample, value)).toThrow('The vapor pressure');
      expect(() => temperatureAtMargin(sample, () => 1e3, value)).toThrow('The suction margin');
      expect(() => temperatureAtMargin(sample, () => value, 0)).toThrow('The vapor pressure');
    }
    expect(() => suctionHeadAvailable({ ...sample, loss: -1 }, 50e3)).toThrow('The loss of the suction side');
    expect(() => suctionHeadAvailable({ ...sample, density: 0 }, 50e3)).toThrow('The density');
  });
});
