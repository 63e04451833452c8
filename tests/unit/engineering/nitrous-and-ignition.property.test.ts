import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Induction } from '../../../server/src/engineering/demand.ts';
import { ethanol, fuels, gasoline, gasolineWithEthanol } from '../../../server/src/engineering/fuels.ts';
import * as ignition from '../../../server/src/engineering/ignition.ts';
import * as nitrous from '../../../server/src/engineering/nitrous.ts';
import { startingAdvance, startingTiming, TIMING_CAUTION } from '../../../server/src/engineering/timing.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const primary = fc.record({ resistance: size(0.2, 4), inductance: size(5e-4, 0.02) });
const voltage = size(6, 16);

describe('nitrous', () => {
  it('fuel, flow and retard rise with the added power, and the bottle empties sooner', () => {
    fc.assert(
      fc.property(rising(1e4, 4e5), ([one, other]) => {
        const flow = (power: number) => nitrous.nitrousFlow(nitrous.nitrousFuel(power));
        expect(flow(one)).toBeLessThan(flow(other));
        expect(nitrous.nitrousRetard(one)).toBeLessThan(nitrous.nitrousRetard(other));
        expect(nitrous.bottleTime(4.5, flow(one))).toBeGreaterThan(nitrous.bottleTime(4.5, flow(other)));
      }),
    );
  });

  it('only a dry system burdens the injectors, both burden the pump', () => {
    expect(nitrous.fuelWithNitrous('wet', 0.02, 0.008)).toEqual({ injectors: 0.02, total: 0.028 });
    expect(nitrous.fuelWithNitrous('dry', 0.02, 0.008)).toEqual({ injectors: 0.028, total: 0.028 });
  });

  it('lifts the cycle and cools the charge the more of it there is', () => {
    fc.assert(
      fc.property(size(1e4, 5e5), rising(0, 3e5), size(0.05, 1), (power, [little, much], air) => {
        expect(nitrous.nitrousEnergyRatio(power, much)).toBeGreaterThan(nitrous.nitrousEnergyRatio(power, little));
        expect(nitrous.nitrousEnergyRatio(power, 0)).toBe(1);
        expect(nitrous.nitrousCooling(much * 1e-6, air)).toBeGreaterThan(nitrous.nitrousCooling(little * 1e-6, air));
      }),
    );
  });

  it('leaves less room the more alcohol there is', () => {
    fc.assert(
      fc.property(rising(0, 1), ([little, much]) => {
        const limit = (share: number) => nitrous.stoichiometricNitrousRatio(gasolineWithEthanol(share));
        expect(limit(much)).toBeLessThan(limit(little));
      }),
    );
  });

  it('the figure in use is well on the rich side of chemistry', () => {
    expect(nitrous.NITROUS_FUEL_RATIO).toBeLessThan(0.75 * nitrous.stoichiometricNitrousRatio(gasoline));
    expect(nitrous.stoichiometricNitrousRatio(ethanol)).toBeLessThan(nitrous.stoichiometricNitrousRatio(fuels.e85));
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(nitrous.nitrousFuel, 75e3, 1e-7);
    expectRefusals(nitrous.nitrousFlow, 0.008, 6);
    expectRefusals(nitrous.nitrousRetard, 75e3);
    expectRefusals(nitrous.nitrousEnergyRatio, 2e5, 75e3);
    expectRefusals(nitrous.nitrousCooling, 0.045, 0.25);
    expectRefusals(nitrous.bottleTime, 4.5, 0.05, 0.85);
    expectRefusals((engine: number, added: number) => nitrous.fuelWithNitrous('dry', engine, added), 0.02, 0.008);
  });
});

describe('ignition coil', () => {
  it('current rises with time toward its final value and never past it', () => {
    fc.assert(
      fc.property(voltage, primary, size(0, 0.02), size(1e-5, 0.02), (volts, coil, time, more) => {
        const current = ignition.coilCurrent(volts, coil, time);
        expect(ignition.coilCurrent(volts, coil, time + more)).toBeGreaterThanOrEqual(current);
        expect(current).toBeLessThanOrEqual(ignition.finalCurrent(volts, coil.resistance));
      }),
    );
  });

  it('the time to a current is the inverse of the current after a time', () => {
    fc.assert(
      fc.property(voltage, primary, size(0.01, 0.95), (volts, coil, part) => {
        const current = part * ignition.finalCurrent(volts, coil.resistance);
        const time = ignition.timeToCurrent(current, volts, coil);
        expect(ignition.coilCurrent(volts, coil, time) / current).toBeCloseTo(1, 9);
      }),
    );
  });

  it('a ballast resistor takes current and voltage', () => {
    fc.assert(
      fc.property(voltage, primary, size(0.1, 3), size(1e-4, 0.01), (volts, coil, ballast, time) => {
        expect(ignition.coilCurrent(volts, coil, time, ballast)).toBeLessThan(ignition.coilCurrent(volts, coil, time));
        expect(ignition.coilVoltage(volts, coil.resistance, ballast)).toBeLessThan(volts);
      }),
    );
  });

  it('dwell shrinks with speed to nothing, and the highest speed for a dwell leaves just that', () => {
    fc.assert(
      fc.property(size(0.5e-3, 5e-3), fc.integer({ min: 1, max: 12 }), (dwell, sparks) => {
        const speed = ignition.highestSpeedForDwell(dwell, sparks);
        expect(ignition.dwellAvailable(speed, sparks) / dwell).toBeCloseTo(1, 6);
        expect(ignition.dwellAvailable(speed * 1.1, sparks)).toBeLessThan(dwell);
        expect(ignition.dwellAvailable(1e5, sparks)).toBe(0);
      }),
    );
  });

  it('charges less at higher speed, no more than the driver allows, and stores nothing without dwell', () => {
    const coil = { primary: { resistance: 0.5, inductance: 3.5e-3 }, voltage: 14, sparksPerCycle: 8 };
    fc.assert(
      fc.property(rising(5, 100), ([slow, fast]) => {
        const charge = ignition.coilChargeAt(slow, coil);
        expect(ignition.coilChargeAt(fast, coil).energy).toBeLessThanOrEqual(charge.energy);
        expect(ignition.coilChargeAt(slow, { ...coil, currentLimit: 7 }).current).toBeLessThanOrEqual(7);
      }),
    );
    expect(ignition.coilChargeAt(1e4, coil)).toEqual({ dwell: 0, current: 0, energy: 0 });
  });

  it('refuses nonsense with a sentence', () => {
    const coil = { resistance: 1.5, inductance: 6e-3 };
    expectRefusals(ignition.finalCurrent, 14, 1.5, 1.4);
    expectRefusals(ignition.coilVoltage, 14, 1.5, 1.4);
    expectRefusals(ignition.timeConstant, coil, 1);
    expectRefusals(ignition.coilCurrent, 14, coil, 3e-3, 1);
    expectRefusals(ignition.timeToCurrent, 4, 14, coil, 1);
    expectRefusals(ignition.storedEnergy, 6e-3, 5);
    expectRefusals(ignition.dwellAvailable, 90, 8, 1e-3);
    expectRefusals(ignition.highestSpeedForDwell, 3e-3, 8, 1e-3);
    expectRefusals(ignition.coilChargeAt, 90, { primary: coil, voltage: 14, sparksPerCycle: 8, currentLimit: 6 });
    expect(() => ignition.timeToCurrent(10, 14, coil)).toThrow(/14 V drives at most 9.33 A/);
    expect(() => ignition.finalCurrent(14, 0)).toThrow(RangeError);
  });
});

describe('starting timing', () => {
  const induction = fc.constantFrom<Induction>('natural', 'roots', 'centrifugal', 'turbo');
  const at = { idleSpeed: 13, ambient: 1e5 };

  it('never advances as pressure rises, and stays within what the curve names', () => {
    fc.assert(
      fc.property(induction, size(5, 130), size(2e4, 3e5), size(0, 5e4), (by, speed, pressure, more) => {
        const timing = startingTiming(by);
        const advance = startingAdvance(timing, { ...at, speed, manifoldPressure: pressure });
        const loaded = startingAdvance(timing, { ...at, speed, manifoldPressure: pressure + more });
        expect(loaded).toBeLessThanOrEqual(advance + 1e-9);
        expect(advance).toBeLessThanOrEqual(timing.cruise);
        expect(advance).toBeGreaterThanOrEqual(Math.min(timing.leastUnderBoost, timing.idle));
      }),
    );
  });

  it('takes out the retard for nitrous as asked', () => {
    const timing = startingTiming('natural');
    const full = { ...at, speed: 90, manifoldPressure: 1e5 };
    expect(startingAdvance(timing, { ...full, retard: 6 })).toBeCloseTo(startingAdvance(timing, full) - 6, 12);
  });

  it('asks less of a boosted engine than of a natural one, and carries a caution', () => {
    expect(startingTiming('roots').fullLoad).toBeLessThan(startingTiming('natural').fullLoad);
    expect(TIMING_CAUTION).toMatch(/knock/);
  });

  it('refuses nonsense with a sentence', () => {
    const full = { ...at, speed: 90, manifoldPressure: 1.2e5, retard: 0 };
    expectRefusals((values: typeof full) => startingAdvance(startingTiming('turbo'), values), full);
  });
});
