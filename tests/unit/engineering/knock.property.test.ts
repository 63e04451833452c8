import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeTemperature, evaporationCooling } from '../../../server/src/engineering/charge.ts';
import { ethanol, gasoline, gasolineWithEthanol } from '../../../server/src/engineering/fuels.ts';
import * as knock from '../../../server/src/engineering/knock.ts';
import { antiknockIndex } from '../../../server/src/engineering/octane.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const cylinder = fc.record({
  compressionRatio: size(7, 13),
  closing: size(30, 80),
  pressure: size(80e3, 220e3),
  temperature: size(290, 420),
  octane: size(80, 100),
  speed: size(20, 110),
});
const spark = size(0, 40);
const few = { numRuns: 60 };

/** A range of each quantity and whether more of it makes knock likelier. */
const effects = {
  compressionRatio: [rising(7, 13), 1],
  pressure: [rising(80e3, 220e3), 1],
  temperature: [rising(290, 420), 1],
  energyRatio: [rising(1, 1.6), 1],
  octane: [rising(80, 100), -1],
  closing: [rising(30, 80), -1],
  speed: [rising(20, 110), -1],
} as const;

describe('the knock index', () => {
  for (const [name, [range, sign]] of Object.entries(effects)) {
    it(`${sign > 0 ? 'rises' : 'falls'} with ${name}, and the limited spark goes the other way`, () => {
      fc.assert(
        fc.property(cylinder, range, spark, (of, [less, more], at) => {
          const index = (value: number) => knock.knockIndex({ ...of, [name]: value }, at, 'iron');
          expect(sign * (index(more) - index(less))).toBeGreaterThan(0);
          const limit = (value: number) => knock.limitedSpark({ ...of, [name]: value }, 'iron').spark;
          expect(sign * (limit(less) - limit(more))).toBeGreaterThanOrEqual(-0.05);
        }),
        few,
      );
    });
  }

  it('rises with the spark', () => {
    fc.assert(
      fc.property(cylinder, rising(-10, 50), (of, [late, early]) => {
        const [low, high] = [late, early].map((at) => knock.knockIndex(of, at, 'iron'));
        expect(high as number).toBeGreaterThan((low as number) * (1 - 1e-4));
      }),
    );
  });

  it('is 1 at the limited spark, unless there is no limit or no spark', () => {
    fc.assert(
      fc.property(cylinder, (of) => {
        const { spark: at, limit } = knock.limitedSpark(of, 'aluminum');
        const index = knock.knockIndex(of, at, 'aluminum');
        if (limit === 'at') expect(index).toBeCloseTo(1, 2);
        else if (limit === 'free') expect(index).toBeLessThanOrEqual(1);
        else expect(index).toBeGreaterThanOrEqual(1);
      }),
    );
  });

  it('limits the spark of part of the charge as it does that of such a charge', () => {
    fc.assert(
      fc.property(cylinder, size(0.3, 1), (of, share) => {
        const whole = knock.knockCurve(of);
        const most = knock.indexAtShare(share);
        const { spark: at } = knock.limitedSparkOn(whole, 'iron', knock.usualBurn, { most });
        expect(at).toBeCloseTo(knock.limitedSpark({ ...of, pressure: share * of.pressure }, 'iron').spark, 2);
      }),
      few,
    );
  });

  it('closes the valve later with a longer cam', () => {
    expect(knock.closingOfCam(204)).toBe(knock.REFERENCE_CLOSING);
    expect(knock.closingOfCam(240)).toBeGreaterThan(knock.closingOfCam(210));
  });

  it('refuses nonsense with a sentence', () => {
    const usual = {
      compressionRatio: 9,
      closing: 50,
      pressure: 1e5,
      temperature: 330,
      octane: 91,
      speed: 50,
      energyRatio: 1,
    };
    expectRefusals((of: knock.Cylinder, at: number) => knock.knockIndex(of, at, 'iron'), usual, 30);
    expectRefusals(knock.ignitionDelay, 91, 3e6, 800);
    expectRefusals(knock.closingOfCam, 210);
    expectRefusals(knock.indexAtShare, 1);
    expectRefusals((burn: knock.Burn) => knock.knockCurve(usual, burn), knock.usualBurn);
    expectRefusals(
      (most: number, faster: number) =>
        knock.limitedSparkOn(knock.knockCurve(usual), 'iron', knock.usualBurn, { most, faster }),
      1,
      1,
    );
  });
});

describe('the charge', () => {
  it('is cooler with more alcohol and with nitrous oxide', () => {
    fc.assert(
      fc.property(
        rising(0, 1),
        size(0.7, 1),
        size(270, 400),
        rising(0, 40),
        ([little, much], lambda, air, [less, more]) => {
          const at = (share: number, nitrousCooling: number) =>
            chargeTemperature({ air, fuel: gasolineWithEthanol(share), lambda, nitrousCooling });
          expect(at(much, less)).toBeLessThan(at(little, less));
          expect(at(little, more)).toBeLessThan(at(little, less));
        },
      ),
    );
    expect(evaporationCooling(ethanol, 0.9)).toBeGreaterThan(evaporationCooling(gasoline, 0.9));
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(
      (air: number, lambda: number, nitrousCooling: number) =>
        chargeTemperature({ air, fuel: gasoline, lambda, nitrousCooling }),
      300,
      0.9,
      10,
    );
    expectRefusals((lambda: number, share: number) => evaporationCooling(gasoline, lambda, share), 0.9, 0.4);
  });
});

describe('octane numbers', () => {
  it('are the higher the easier the test they come from', () => {
    expect(antiknockIndex(91, 'RON')).toBeLessThan(antiknockIndex(91, 'MON'));
    expectRefusals((octane: number) => antiknockIndex(octane, 'RON'), 95);
  });
});
