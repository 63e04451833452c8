import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alcoholVaporPressure, hydrocarbonExpansion } from '../../../server/src/engineering/fuel-properties.ts';
import * as fuels from '../../../server/src/engineering/fuels.ts';
import { reidVaporPressureLimits } from '../../../server/src/engineering/reid-pressure.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const named = fc.constantFrom(...Object.values(fuels.fuels));
const share = size(0, 1);
const temperatures = rising(233.15, 353.15);

describe('fuels', () => {
  it('a blend lies between its parts in every property', () => {
    fc.assert(
      fc.property(named, named, share, (first, second, volumeShare) => {
        const mixture = fuels.blend(first, second, volumeShare);
        const figures = [
          fuels.stoichiometricRatio,
          (fuel: fuels.Fuel) => fuel.density15,
          (fuel: fuels.Fuel) => fuel.lowerHeatingValue,
          (fuel: fuels.Fuel) => fuel.latentHeat,
          (fuel: fuels.Fuel) => fuels.kinematicViscosity(fuel, 293.15),
          (fuel: fuels.Fuel) => fuel.ethanolShare,
        ];
        for (const figure of figures) {
          const [low, high] = [figure(first), figure(second)].sort((one, other) => one - other) as [number, number];
          expect(figure(mixture)).toBeGreaterThanOrEqual(low * (1 - 1e-9));
          expect(figure(mixture)).toBeLessThanOrEqual(high * (1 + 1e-9));
        }
      }),
    );
  });

  it('blending the other way round gives the same fuel', () => {
    fc.assert(
      fc.property(named, named, share, (first, second, volumeShare) => {
        const one = fuels.blend(first, second, volumeShare);
        const other = fuels.blend(second, first, 1 - volumeShare);
        expect(fuels.stoichiometricRatio(one)).toBeCloseTo(fuels.stoichiometricRatio(other), 9);
        expect(one.density15).toBeCloseTo(other.density15, 9);
      }),
    );
  });

  it('burns the same air whether the parts burn alone or mixed', () => {
    fc.assert(
      fc.property(share, (volumeShare) => {
        const mixture = fuels.blend(fuels.gasoline, fuels.ethanol, volumeShare);
        const air = (fuel: fuels.Fuel) => fuels.stoichiometricRatio(fuel) * fuel.density15;
        const apart = (1 - volumeShare) * air(fuels.gasoline) + volumeShare * air(fuels.ethanol);
        expect(air(mixture)).toBeCloseTo(apart, 6);
      }),
    );
  });

  it('more ethanol needs more fuel for the same air', () => {
    fc.assert(
      fc.property(rising(0, 1), ([one, other]) => {
        const ratio = (volumeShare: number) => fuels.stoichiometricRatio(fuels.gasolineWithEthanol(volumeShare));
        expect(ratio(one)).toBeGreaterThan(ratio(other));
      }),
    );
  });

  it('is lighter and thinner when hotter', () => {
    fc.assert(
      fc.property(named, temperatures, (fuel, [one, other]) => {
        expect(fuels.density(fuel, one)).toBeGreaterThan(fuels.density(fuel, other));
        expect(fuels.kinematicViscosity(fuel, one)).toBeGreaterThan(fuels.kinematicViscosity(fuel, other));
      }),
    );
  });

  it('alcohol boils off more easily when hotter', () => {
    fc.assert(
      fc.property(fc.constantFrom('ethanol' as const, 'methanol' as const), temperatures, (name, [one, other]) => {
        expect(alcoholVaporPressure(name, one)).toBeLessThan(alcoholVaporPressure(name, other));
      }),
    );
  });

  it('keeps what the user states of a fuel and nothing else', () => {
    const race = fuels.customFuel(fuels.gasoline, { name: 'race gasoline', stoichiometricRatio: 14.1, density15: 720 });
    expect(fuels.stoichiometricRatio(race)).toBe(14.1);
    expect(race.density15).toBe(720);
    expect(race.lowerHeatingValue).toBe(fuels.gasoline.lowerHeatingValue);
    expect(fuels.stoichiometricRatio(fuels.blend(race, fuels.ethanol, 0.5))).toBeLessThan(14.1);
  });

  it('a custom fuel expands by its own density, over all that is allowed', () => {
    fc.assert(
      fc.property(rising(600, 1200), ([light, heavy]) => {
        expect(hydrocarbonExpansion(light)).toBeGreaterThan(hydrocarbonExpansion(heavy) * 0.995);
        const custom = (density15: number) => fuels.customFuel(fuels.gasoline, { density15 });
        const share = (fuel: fuels.Fuel) => fuels.density(fuel, 333.15) / fuel.density15;
        expect(share(custom(light))).toBeLessThan(share(custom(heavy)) * 1.001);
      }),
    );
    expect(fuels.customFuel(fuels.e85(), { density15: fuels.e85().density15 }).expansion).toBeCloseTo(
      fuels.e85().expansion,
      12,
    );
  });

  it('knows which fuels the gasoline vapor-pressure formula covers', () => {
    expect(fuels.gasoline.vaporPressureApplies).toBe(true);
    expect(fuels.gasolineE10.vaporPressureApplies).toBe(false);
    expect(fuels.gasolineE10.reidVaporPressure).toBeGreaterThan(reidVaporPressureLimits.A);
    expect(fuels.blend(fuels.gasoline, fuels.methanol, 0.5).reidVaporPressure).toBeUndefined();
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals((fraction: number) => fuels.blend(fuels.gasoline, fuels.ethanol, fraction), 0.5);
    expectRefusals(fuels.e85, 0.7);
    expectRefusals((kelvin: number) => fuels.density(fuels.gasoline, kelvin), 290);
    expectRefusals((kelvin: number) => fuels.kinematicViscosity(fuels.gasoline, kelvin), 290);
    expectRefusals((kelvin: number) => alcoholVaporPressure('ethanol', kelvin), 290);
    expectRefusals((stated: fuels.StatedFuel) => fuels.customFuel(fuels.gasoline, stated), {
      density15: 740,
      stoichiometricRatio: 14.5,
      lowerHeatingValue: 43e6,
      reidVaporPressure: 60e3,
    });
    expectRefusals(fuels.oxygenDemand, { carbon: 8, hydrogen: 18, oxygen: 0 });
    expect(() => fuels.stoichiometricRatio({ carbon: 1, hydrogen: 0, oxygen: 2 })).toThrow(RangeError);
    expect(() => fuels.molarMass({ carbon: 0, hydrogen: 0, oxygen: 0 })).toThrow(RangeError);
  });
});
