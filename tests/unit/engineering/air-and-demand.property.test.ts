import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as air from '../../../server/src/engineering/air.ts';
import * as demand from '../../../server/src/engineering/demand.ts';
import { fuels } from '../../../server/src/engineering/fuels.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const power = size(1e3, 2e6);
const displacement = size(2e-4, 0.02);
const speed = size(5, 250);
const fuel = fc.constantFrom(...Object.values(fuels));
const induction = fc.constantFrom<demand.Induction>('natural', 'roots', 'centrifugal', 'turbo');

describe('air', () => {
  it('is thinner higher up and on a hotter day', () => {
    fc.assert(
      fc.property(rising(-2000, 11000), rising(220, 340), ([low, high], [cold, hot]) => {
        expect(air.standardAir(low).density).toBeGreaterThan(air.standardAir(high).density);
        expect(air.standardAir(low).pressure).toBeGreaterThan(air.standardAir(high).pressure);
        expect(air.airDensity(1e5, cold)).toBeGreaterThan(air.airDensity(1e5, hot));
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(air.standardAir, 300);
    expectRefusals(air.airDensity, 1e5, 300);
    expectRefusals(air.engineVolumeFlow, 0.005, 80, 0.8);
    expectRefusals(air.massFlow, 0.2, 1.2);
    expect(() => air.engineVolumeFlow(0, 80, 0.8)).toThrow('The displacement must be above zero.');
  });
});

describe('fuel demand', () => {
  it('rises with power, and power comes back from it', () => {
    fc.assert(
      fc.property(rising(1e3, 2e6), induction, fuel, ([one, other], by, of) => {
        const bsfc = demand.defaultBsfc(by, of).usual;
        expect(demand.fuelDemandByPower(one, bsfc)).toBeLessThan(demand.fuelDemandByPower(other, bsfc));
        expect(demand.powerSupported(demand.fuelDemandByPower(one, bsfc), bsfc) / one).toBeCloseTo(1, 9);
      }),
    );
  });

  it('air and fuel are inverse at any lambda', () => {
    fc.assert(
      fc.property(size(1e-4, 2), size(0.6, 1.2), fuel, (flow, lambda, of) => {
        const needed = demand.fuelDemandByAir(flow, lambda, of);
        expect(demand.airDemand(needed, lambda, of) / flow).toBeCloseTo(1, 9);
      }),
    );
  });

  it('a richer mixture needs more fuel', () => {
    fc.assert(
      fc.property(rising(0.6, 1.2), fuel, ([rich, lean], of) => {
        expect(demand.fuelDemandByAir(0.2, rich, of)).toBeGreaterThan(demand.fuelDemandByAir(0.2, lean, of));
      }),
    );
  });

  it('the volumetric efficiency that made an air flow is the one implied by it', () => {
    fc.assert(
      fc.property(displacement, speed, size(0.2, 3), size(0.6, 1.4), (volume, rate, efficiency, density) => {
        const flow = air.massFlow(air.engineVolumeFlow(volume, rate, efficiency), density);
        expect(demand.impliedVolumetricEfficiency(flow, volume, rate, density) / efficiency).toBeCloseTo(1, 9);
      }),
    );
  });

  it('scales: twice the engine at the same power has half the mean effective pressure', () => {
    fc.assert(
      fc.property(power, displacement, speed, (watts, volume, rate) => {
        const once = demand.brakeMeanEffectivePressure(watts, volume, rate);
        expect(demand.brakeMeanEffectivePressure(watts, 2 * volume, rate) / once).toBeCloseTo(0.5, 9);
        expect(demand.brakeMeanEffectivePressure(watts, volume, 2 * rate) / once).toBeCloseTo(0.5, 9);
        const torque = demand.torqueOfPower(watts, rate);
        expect(demand.powerOfTorque(torque, rate) / watts).toBeCloseTo(1, 9);
        expect((4 * Math.PI * torque) / volume / once).toBeCloseTo(1, 9);
      }),
    );
  });

  it('says which demand is the larger', () => {
    expect(demand.demandDisagreement(1.1, 0.9)).toBeCloseTo(0.2, 12);
    expect(demand.demandDisagreement(0.9, 1.1)).toBeCloseTo(-0.2, 12);
    expect(demand.demandDisagreement(1, 1)).toBe(0);
  });

  it('has defaults in order for every induction', () => {
    for (const { bsfc, lambda, volumetricEfficiency, source } of Object.values(demand.inductionDefaults)) {
      for (const range of [bsfc, lambda, volumetricEfficiency]) {
        expect(range.low).toBeLessThanOrEqual(range.usual);
        expect(range.usual).toBeLessThanOrEqual(range.high);
      }
      expect(source).not.toBe('');
    }
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(demand.fuelDemandByPower, 2e5, 8e-8);
    expectRefusals(demand.powerSupported, 0.02, 8e-8);
    expectRefusals((flow: number, lambda: number) => demand.fuelDemandByAir(flow, lambda, fuels.gasoline), 0.2, 0.9);
    expectRefusals((flow: number, lambda: number) => demand.airDemand(flow, lambda, fuels.gasoline), 0.02, 0.9);
    expectRefusals(demand.demandDisagreement, 0.02, 0.02);
    expectRefusals(demand.brakeMeanEffectivePressure, 2e5, 5e-3, 90);
    expectRefusals(demand.impliedVolumetricEfficiency, 0.2, 5e-3, 90, 1.2);
    expectRefusals(demand.powerOfTorque, 300, 90);
    expectRefusals(demand.torqueOfPower, 2e5, 90);
    expectRefusals((bsfc: number) => demand.brakeThermalEfficiency(bsfc, fuels.gasoline), 8e-8);
  });
});
