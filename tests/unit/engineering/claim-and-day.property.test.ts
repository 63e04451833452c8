import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardAir } from '../../../server/src/engineering/air.ts';
import * as claim from '../../../server/src/engineering/claim.ts';
import { airMassRatio, ambientOf, chargeOf, type Keeps, keeps } from '../../../server/src/engineering/day.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const air = fc.record({ dryPressure: size(60e3, 105e3), temperature: size(250, 320) });
const condition = fc.constantFrom<claim.ClaimCondition>('standard', 'older-standard', 'as-driven');
const usual = ambientOf(95e3, 290);
const at = (altitude: number, kelvin: number) => ambientOf(standardAir(altitude).pressure, kelvin);
const charger = fc.record({ boost: size(1e3, 150e3), efficiency: size(0.5, 0.8), effectiveness: size(0, 0.9) });

describe('a power claim', () => {
  it('is worth less at the site the thinner and hotter the air, unless it holds as driven', () => {
    fc.assert(
      fc.property(rising(60e3, 105e3), rising(250, 320), ([thin, dense], [cold, hot]) => {
        const at = (dryPressure: number, temperature: number) =>
          claim.powerAtSite(2e5, 'standard', { dryPressure, temperature });
        expect(at(thin, cold)).toBeLessThan(at(dense, cold));
        expect(at(dense, hot)).toBeLessThan(at(dense, cold));
        expect(claim.powerAtSite(2e5, 'as-driven', { dryPressure: thin, temperature: hot })).toBe(2e5);
      }),
    );
  });

  it('comes back the same by way of the site, and doubles with the claim', () => {
    fc.assert(
      fc.property(condition, air, size(1e4, 1e6), (of, site, power) => {
        const there = claim.powerAtSite(power, of, site);
        const back = claim.standardPower(there, 'as-driven', site);
        expect(back / claim.standardPower(power, of, site)).toBeCloseTo(1, 9);
        expect(claim.powerAtSite(2 * power, of, site) / there).toBeCloseTo(2, 9);
      }),
    );
  });

  it('says where the standard does not mean its factor', () => {
    expect(claim.isExtrapolated(99e3, 298)).toBe(false);
    expect(claim.isExtrapolated(75e3, 298)).toBe(true);
    expect(claim.isExtrapolated(106e3, 298)).toBe(true);
    expect(claim.isExtrapolated(99e3, 280)).toBe(true);
    expect(claim.isExtrapolated(99e3, 310)).toBe(true);
  });

  it('holds in drier air the more vapor there is', () => {
    fc.assert(
      fc.property(rising(0, 1), size(240, 330), ([less, more], kelvin) => {
        expect(claim.dryPressure(1e5, kelvin, more)).toBeLessThan(claim.dryPressure(1e5, kelvin, less));
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    const site = { dryPressure: 98e3, temperature: 298 };
    expectRefusals(claim.dryPressure, 1e5, 298, 0.3);
    expectRefusals(claim.correctionFactor, site);
    expectRefusals(claim.olderCorrectionFactor, site);
    expectRefusals(claim.isExtrapolated, 1e5, 298);
    expectRefusals((power: number) => claim.powerAtSite(power, 'as-driven', site), 2e5);
    expectRefusals((power: number, at: typeof site) => claim.powerAtSite(power, 'standard', at), 2e5, site);
    expectRefusals(claim.crankPower, 2e5, 0.15);
    expect(() => claim.dryPressure(5e3, 330, 1)).toThrow('dry air');
  });
});

describe('days', () => {
  it('are told apart by induction', () => {
    expect(keeps('natural')).toBe('nothing');
    expect(keeps('roots')).toBe('pressure-ratio');
    expect(keeps('centrifugal')).toBe('pressure-ratio');
    expect(keeps('turbo')).toBe('gauge-boost');
    expect(keeps('turbo', true)).toBe('mass-flow');
  });

  it('cost a turbo less air with altitude than a blower, and a blower as much as a natural engine', () => {
    fc.assert(
      fc.property(charger, rising(0, 4000), size(270, 310), (compressor, [low, high], kelvin) => {
        const claimed = at(low, kelvin);
        const on = at(high, kelvin);
        const ratio = (kept: Keeps) => airMassRatio(kept, compressor, claimed, on);
        expect(ratio('nothing')).toBeLessThan(1);
        expect(ratio('pressure-ratio')).toBeCloseTo(ratio('nothing'), 9);
        expect(ratio('gauge-boost')).toBeGreaterThan(ratio('nothing'));
        expect(ratio('gauge-boost')).toBeLessThan(1);
        expect(ratio('mass-flow')).toBe(1);
      }),
    );
  });

  it('are the same day for every kind of engine when nothing changes', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Keeps>('nothing', 'pressure-ratio', 'gauge-boost', 'mass-flow'),
        charger,
        (kept, of) => {
          expect(airMassRatio(kept, of, usual, usual)).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  it('give more air when cold and dry', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Keeps>('nothing', 'pressure-ratio', 'gauge-boost'),
        charger,
        rising(250, 320),
        (kept, of, [cold, hot]) => {
          const on = (temperature: number) => airMassRatio(kept, of, usual, ambientOf(95e3, temperature));
          expect(on(cold)).toBeGreaterThan(on(hot));
        },
      ),
    );
  });

  it('refuse nonsense with a sentence', () => {
    expectRefusals(ambientOf, 95e3, 290, 0.3);
    const compressor = { boost: 5e4, efficiency: 0.7, effectiveness: 0.5 };
    const here = { pressure: 1e5, dryPressure: 99e3, temperature: 300 };
    expectRefusals(
      (of: typeof compressor, claimed: { pressure: number }, on: { pressure: number; temperature: number }) =>
        chargeOf('pressure-ratio', of, { ...here, ...claimed }, { ...here, ...on }),
      compressor,
      { pressure: 1e5 },
      { pressure: 9e4, temperature: 300 },
    );
  });
});
