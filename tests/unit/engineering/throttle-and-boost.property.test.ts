import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airDensity, SEA_LEVEL, standardAir } from '../../../server/src/engineering/air.ts';
import * as boost from '../../../server/src/engineering/boost.ts';
import { CRITICAL_PRESSURE_RATIO, idealMassFlux } from '../../../server/src/engineering/compressible.ts';
import { flangeFit, hoodMargin, stackHeight } from '../../../server/src/engineering/stack.ts';
import * as throttle from '../../../server/src/engineering/throttle.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const site = fc.record({ altitude: size(-400, 5000), temperature: size(240, 325) });
const area = size(1e-4, 0.02);

function airAt(altitude: number, temperature: number) {
  const { pressure } = standardAir(altitude);
  return { pressure, temperature, density: airDensity(pressure, temperature) };
}

describe('throttle body', () => {
  it('flows more with more depression until it chokes, and no more after', () => {
    fc.assert(
      fc.property(area, site, rising(0, 0.999), (open, { altitude, temperature }, [one, other]) => {
        const upstream = airAt(altitude, temperature);
        const low = throttle.throttleFlow(open, one * upstream.pressure, upstream);
        const high = throttle.throttleFlow(open, other * upstream.pressure, upstream);
        if (low.choked) {
          expect(high.choked).toBe(true);
          expect(high.massFlow).toBe(low.massFlow);
        } else {
          expect(high.massFlow).toBeGreaterThan(low.massFlow);
        }
        expect(high.massFlow).toBeLessThanOrEqual(throttle.chokedFlow(open, upstream));
      }),
    );
  });

  it('the depression at a flow drives just that flow', () => {
    fc.assert(
      fc.property(area, site, size(1e-4, 0.999), (open, { altitude, temperature }, load) => {
        const upstream = airAt(altitude, temperature);
        const flow = load * throttle.chokedFlow(open, upstream);
        const depression = throttle.depressionAt(flow, open, upstream);
        expect(depression).toBeGreaterThan(0);
        expect(throttle.throttleFlow(open, depression, upstream).massFlow / flow).toBeCloseTo(1, 5);
      }),
    );
  });

  it('bigger bores and lower sites need less and more depression for the same air', () => {
    fc.assert(
      fc.property(area, size(0.01, 0.8), (open, load) => {
        const flow = load * throttle.chokedFlow(open, standardAir(3000));
        const depression = throttle.depressionAt(flow, open, SEA_LEVEL);
        expect(throttle.depressionAt(flow, open * 1.2, SEA_LEVEL)).toBeLessThan(depression);
        expect(throttle.depressionAt(flow, open, standardAir(3000))).toBeGreaterThan(depression);
      }),
    );
  });

  it('the area behind a rating gives the rating back', () => {
    fc.assert(
      fc.property(size(0.05, 1), size(500, 20e3), (rating, depression) => {
        const open = throttle.ratedArea(rating, depression);
        expect(throttle.airflowRating(open, depression) / rating).toBeCloseTo(1, 9);
      }),
    );
  });

  it('no air needs no depression, and choking has a clear message', () => {
    expect(throttle.depressionAt(0, 0.001, SEA_LEVEL)).toBe(0);
    const most = throttle.chokedFlow(0.001, SEA_LEVEL);
    expect(throttle.depressionAt(most, 0.001, SEA_LEVEL)).toBeCloseTo(101325 * (1 - CRITICAL_PRESSURE_RATIO), 6);
    expect(() => throttle.depressionAt(most * 1.01, 0.001, SEA_LEVEL)).toThrow(/The bores choke/);
    expect(() => idealMassFlux(1e5, 300, 1.1e5)).toThrow(/toward the lower pressure/);
    expect(() => throttle.boreArea([])).toThrow(RangeError);
  });

  it('stands as tall as its parts and leaves the rest under the hood', () => {
    expect(stackHeight({ adapters: [], throttleBody: 0.05, airCleaner: 0 })).toBe(0.05);
    expect(hoodMargin(0.1, 0.12)).toBeCloseTo(-0.02, 12);
    expect(flangeFit('square-bore', 'square-bore')).toEqual({ matches: true, adapter: false, leak: false, note: '' });
    expect(flangeFit('square-bore', 'spread-bore')).toMatchObject({ matches: false, adapter: true, leak: true });
    expect(flangeFit('square-bore', 'spread-bore').note).toMatch(/air leaks in/);
    expect(flangeFit('large-square-bore', 'square-bore')).toMatchObject({ matches: false, adapter: true });
    expect(flangeFit('large-square-bore', 'large-square-bore').matches).toBe(true);
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(throttle.boreArea, [{ quantity: 4, diameter: 0.044 }]);
    expectRefusals(throttle.effectiveArea, 0.006, 0.8);
    expectRefusals(
      (open: number, depression: number) => throttle.throttleFlow(open, depression, SEA_LEVEL),
      0.006,
      5e3,
    );
    expectRefusals((flow: number, open: number) => throttle.depressionAt(flow, open, SEA_LEVEL), 0.3, 0.006);
    expectRefusals((open: number, depression: number) => throttle.airflowRating(open, depression), 0.006, 5e3);
    expectRefusals(throttle.ratedArea, 0.3, 5e3);
    expectRefusals(throttle.ratingAt, 0.3, 5e3, 1e4);
    expectRefusals(idealMassFlux, 1e5, 300, 9e4);
    expectRefusals(stackHeight, { adapters: [0.005, 0.01], throttleBody: 0.05, airCleaner: 0.06 });
  });
});

describe('boost', () => {
  it('more boost is a higher ratio, and the same boost is a higher ratio at altitude', () => {
    fc.assert(
      fc.property(size(1e3, 2e5), size(0, 4000), (gauge, altitude) => {
        const here = boost.pressureRatio(gauge, standardAir(altitude).pressure);
        expect(boost.pressureRatio(gauge * 1.1, standardAir(altitude).pressure)).toBeGreaterThan(here);
        expect(boost.pressureRatio(gauge, standardAir(altitude + 500).pressure)).toBeGreaterThan(here);
      }),
    );
  });

  it('air leaves a better compressor cooler and an intercooler denser, never cooler than its coolant', () => {
    fc.assert(
      fc.property(size(250, 330), size(1.01, 4), size(0.3, 0.95), size(0, 1), (inlet, ratio, efficiency, cooling) => {
        const hot = boost.compressorOutletTemperature(inlet, ratio, efficiency);
        expect(hot).toBeGreaterThan(inlet);
        expect(boost.compressorOutletTemperature(inlet, ratio, efficiency + 0.05)).toBeLessThan(hot);
        const cooled = boost.intercoolerOutletTemperature(hot, inlet, cooling);
        expect(cooled).toBeGreaterThanOrEqual(inlet * (1 - 1e-12));
        expect(cooled).toBeLessThanOrEqual(hot);
        expect(boost.densityRatio(ratio, inlet, cooled)).toBeLessThanOrEqual(ratio * (1 + 1e-12));
        expect(boost.densityRatio(ratio, inlet, cooled)).toBeGreaterThanOrEqual(boost.densityRatio(ratio, inlet, hot));
      }),
    );
  });

  it('no boost changes nothing', () => {
    expect(boost.pressureRatio(0, 1e5)).toBe(1);
    expect(boost.compressorOutletTemperature(300, 1, 0.6)).toBe(300);
    expect(boost.densityRatio(1, 300, 300)).toBe(1);
    expect(boost.boostedPower(2e5, 1)).toBe(2e5);
    expect(boost.effectiveCompressionRatio(9, 80e3)).toBe(9);
  });

  it('pressure and temperature at the end of compression rise with both ratios and keep the gas law', () => {
    fc.assert(
      fc.property(size(3e4, 3e5), size(280, 400), size(6, 14), (pressure, temperature, ratio) => {
        const end = boost.endOfCompression({ pressure, temperature }, ratio);
        expect(end.pressure).toBeGreaterThan(pressure);
        expect(boost.endOfCompression({ pressure, temperature }, ratio + 0.5).pressure).toBeGreaterThan(end.pressure);
        expect(end.pressure / pressure / ratio / (end.temperature / temperature)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('takes the reference where the engine is, never above a blower', () => {
    expect(boost.referencePlace('roots', 'draw-through')).toMatch(/under the blower/);
    expect(boost.referencePlace('turbo', 'blow-through')).toMatch(/hat .* sealed/);
    expect(boost.referencePlace('natural', 'natural')).toMatch(/not ported/);
    expect(boost.referencePlace('turbo', 'draw-through')).toMatch(/never ahead of the compressor/);
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(boost.pressureRatio, 5e4, 1e5, 2e3);
    expectRefusals(boost.compressorOutletTemperature, 300, 1.6, 0.7);
    expectRefusals(boost.intercoolerOutletTemperature, 370, 300, 0.7);
    expectRefusals(boost.densityRatio, 1.6, 300, 350);
    expectRefusals(boost.compressorPower, 0.3, 300, 360);
    expectRefusals(boost.boostedPower, 2e5, 1.4, 2e4);
    expectRefusals(boost.endOfCompression, { pressure: 1.5e5, temperature: 330 }, 9, 1.3);
    expectRefusals(boost.effectiveCompressionRatio, 9, 1.5e5);
    expectRefusals(boost.highestManifoldPressure, 5e4, 1e5);
    expect(() => boost.intercoolerOutletTemperature(300, 320, 0.7)).toThrow(/heat the air/);
    expect(() => boost.boostedPower(1e5, 1.2, 2e5)).toThrow(RangeError);
  });
});
