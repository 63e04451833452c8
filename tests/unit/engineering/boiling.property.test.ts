import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as boiling from '../../../server/src/engineering/boiling.ts';
import * as reid from '../../../server/src/engineering/reid-pressure.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const PSI = 6894.757;
const fuel = fc.oneof(
  fc.record({ reidVaporPressure: size(5 * PSI, 15 * PSI), ethanolShare: size(0, 1), methanolShare: fc.constant(0) }),
  fc.record({ reidVaporPressure: size(5 * PSI, 15 * PSI), ethanolShare: fc.constant(0), methanolShare: size(0, 1) }),
);
const temperature = size(234, 372);

describe('vapor pressure', () => {
  it('of every fuel rises with temperature, from -40 to 100 degC', () => {
    fc.assert(
      fc.property(fuel, rising(234, 372), (of, [cold, hot]) => {
        expect(boiling.trueVaporPressure(of, hot)).toBeGreaterThan(boiling.trueVaporPressure(of, cold));
      }),
    );
  });

  it('rises with the Reid vapor pressure', () => {
    fc.assert(
      fc.property(rising(5 * PSI, 15 * PSI), size(0, 0.85), temperature, ([low, high], ethanolShare, kelvin) => {
        const at = (reidVaporPressure: number) =>
          boiling.trueVaporPressure({ reidVaporPressure, ethanolShare, methanolShare: 0 }, kelvin);
        expect(at(high)).toBeGreaterThan(at(low));
      }),
    );
  });

  it('has parts that are none of them negative', () => {
    fc.assert(
      fc.property(fuel, temperature, (of, kelvin) => {
        for (const part of Object.values(boiling.vaporParts(of, kelvin))) expect(part).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('of a blend is near that of the alcohol where there is little else', () => {
    const nearly = { reidVaporPressure: 2.3 * PSI, ethanolShare: 0.989, methanolShare: 0 };
    for (const kelvin of [260, 300, 340]) {
      const neat = boiling.trueVaporPressure({ ...nearly, ethanolShare: 1 }, kelvin);
      expect(boiling.trueVaporPressure(nearly, kelvin) / neat).toBeCloseTo(1, 0);
    }
  });
});

describe('boiling', () => {
  it('is where the vapor pressure meets the pressure, and is later under more of it', () => {
    fc.assert(
      fc.property(fuel, rising(60e3, 130e3), (of, [low, high]) => {
        const at = boiling.boilingTemperature(of, low);
        expect(boiling.trueVaporPressure(of, at) / low).toBeCloseTo(1, 6);
        expect(boiling.boilingTemperature(of, high)).toBeGreaterThan(at);
      }),
    );
  });

  it('warms a tank more the more heat and the less fuel there is', () => {
    fc.assert(
      fc.property(rising(0, 300), size(0, 200), rising(0.02, 0.2), ([weak, strong], bypass, [small, large]) => {
        const rise = (pump: number, volume: number) => boiling.tankHeating({ pump, bypass, volume });
        expect(rise(strong, small)).toBeGreaterThan(rise(weak, small));
        expect(rise(strong, large)).toBeLessThan(rise(strong, small));
        expect(rise(strong, 8 * small)).toBeCloseTo(rise(strong, small) / 4, 9);
      }),
    );
  });

  it('leaves a richer vapor for a cold start the warmer it is, and the thinner the air', () => {
    fc.assert(
      fc.property(rising(234, 285), ([cold, warm]) => {
        const neat = { reidVaporPressure: 2.3 * PSI, ethanolShare: 1, methanolShare: 0 };
        const ratio = (kelvin: number, pressure: number) => boiling.coldVaporRatio(neat, kelvin, pressure);
        expect(ratio(warm, 1e5)).toBeGreaterThan(ratio(cold, 1e5));
        expect(ratio(warm, 8e4)).toBeGreaterThan(ratio(warm, 1e5));
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    const gasoline = { reidVaporPressure: 6e4, ethanolShare: 0.1, methanolShare: 0 };
    expectRefusals(boiling.trueVaporPressure, gasoline, 300);
    expectRefusals(boiling.boilingTemperature, gasoline, 1e5);
    expectRefusals(boiling.tankHeating, { pump: 100, bypass: 150, volume: 0.06 });
    expectRefusals(boiling.coldVaporRatio, gasoline, 270, 1e5);
    expect(() => boiling.coldVaporRatio(gasoline, 340, 1e5)).toThrow('boils');
    expect(() => boiling.boilingTemperature(gasoline, 1e7)).toThrow('not yet at');
  });
});

describe('Reid vapor pressure', () => {
  it('of a blend is that of its parts at the ends, and higher with a little ethanol', () => {
    fc.assert(
      fc.property(size(6 * PSI, 13 * PSI), (base) => {
        expect(reid.reidOfEthanolBlend(base, 0)).toBeCloseTo(base, 6);
        expect(reid.reidOfEthanolBlend(base, 1) / PSI).toBeCloseTo(2.3, 6);
        expect(reid.reidOfEthanolBlend(base, 0.1)).toBeGreaterThan(base);
        expect(reid.reidOfEthanolBlend(base, 0.85)).toBeLessThan(base);
      }),
    );
  });

  it('of a blend has no steps', () => {
    fc.assert(
      fc.property(size(6 * PSI, 13 * PSI), size(0, 0.99), (base, share) => {
        const step = reid.reidOfEthanolBlend(base, share + 0.001) - reid.reidOfEthanolBlend(base, share);
        expect(Math.abs(step)).toBeLessThan(0.1 * PSI);
      }),
    );
  });

  it('of E85 rises from class to class, and winter asks for more', () => {
    const classes = reid.e85ReidVaporPressures;
    for (const of of [1, 2, 3] as const) {
      const next = (of + 1) as reid.E85Class;
      expect(classes[next].low).toBeGreaterThan(classes[of].low);
      expect(classes[next].high).toBeGreaterThan(classes[of].high);
    }
    expect([300, 270, 262, 250].map(reid.e85ClassFor)).toEqual([1, 2, 3, 4]);
  });

  it('assumed is lower where it gets hot', () => {
    expect(reid.usualReidVaporPressure(314)).toBeLessThan(reid.usualReidVaporPressure(305));
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(reid.reidOfEthanolBlend, 6e4, 0.1);
    expectRefusals(reid.usualReidVaporPressure, 300);
    expectRefusals(reid.e85ClassFor, 300);
  });
});
