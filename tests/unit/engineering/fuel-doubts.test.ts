import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fuelDoubts, plausibleRange } from '../../../server/src/engineering/fuel-doubts.ts';
import { type Fuel, fuels, stoichiometricRatio } from '../../../server/src/engineering/fuels.ts';
import { e85ReidVaporPressures } from '../../../server/src/engineering/reid-pressure.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const none = { ethanolShare: 0, methanolShare: 0 };

describe('doubts about a fuel', () => {
  it('there are none about the fuels we know', () => {
    const known: Fuel[] = Object.values(fuels);
    for (const fuel of known) {
      const stated = {
        density: fuel.density15,
        heatingValue: fuel.lowerHeatingValue,
        stoichiometricRatio: stoichiometricRatio(fuel),
        vaporPressure: fuel.reidVaporPressure,
      };
      expect(fuelDoubts(stated, fuel), fuel.name).toEqual([]);
    }
  });

  it('nor about E85 of any season at its share of ethanol', () => {
    for (const [share, season] of [
      [0.83, 1],
      [0.75, 2],
      [0.7, 3],
      [0.6, 4],
    ] as const) {
      for (const vaporPressure of Object.values(e85ReidVaporPressures[season])) {
        expect(fuelDoubts({ vaporPressure }, { ...none, ethanolShare: share })).toEqual([]);
      }
    }
  });

  it('there are about what no such fuel is like', () => {
    const properties = (...given: Parameters<typeof fuelDoubts>) => fuelDoubts(...given).map((one) => one.property);
    expect(properties({ density: 1000, heatingValue: 20e6 }, none)).toEqual(['density', 'heating-value']);
    expect(properties({ octane: 87 }, { ...none, ethanolShare: 0.85 })).toEqual(['octane']);
    expect(properties({ octane: 87 }, none)).toEqual([]);
    expect(properties({ heatingValue: 20e6 }, { ...none, methanolShare: 1 })).toEqual([]);
    expect(properties({ stoichiometricRatio: 14.7 }, { ...none, ethanolShare: 0.85 })).toEqual([
      'stoichiometric-ratio',
    ]);
    expect(properties({ vaporPressure: 5e3 }, none)).toEqual(['vapor-pressure']);
  });

  it('bounds move with the alcohol', () => {
    fc.assert(
      fc.property(rising(0, 1), ([little, much]) => {
        expect(plausibleRange('octane', much, 0).low).toBeGreaterThan(plausibleRange('octane', little, 0).low);
        expect(plausibleRange('heating-value', much, 0).high).toBeLessThan(
          plausibleRange('heating-value', little, 0).high,
        );
        expect(plausibleRange('density', much, 0).low).toBeLessThan(plausibleRange('density', much, 0).high);
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    fc.assert(
      fc.property(size(0, 1), (share) => {
        expect(() => plausibleRange('density', share, 0)).not.toThrow();
      }),
    );
    expectRefusals(
      (ethanolShare: number, methanolShare: number) => plausibleRange('density', ethanolShare, methanolShare),
      0.1,
      0,
    );
    expectRefusals((density: number) => fuelDoubts({ density }, none), 740);
  });
});
