import { describe, expect, it } from 'vitest';
import { said } from '../../../server/src/engineering/bounds.ts';
import { density, gasoline } from '../../../server/src/engineering/fuels.ts';
import { pumpFromTests } from '../../../server/src/engineering/pump.ts';
import { formatValue } from '../../../server/src/units/format.ts';
import { inUnits } from '../../../server/src/units/sentence.ts';
import type { Dimension, System } from '../../../server/src/units/units.ts';

const inSystem = (system: System) => (sentence: string) =>
  inUnits(sentence, (value: number, dimension: Dimension) => formatValue(value, dimension, system));

function reasonOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('Nothing was thrown.');
}

const curve = [
  { pressure: 3e5, flow: 5e-5 },
  { pressure: 4e5, flow: 6e-5 },
];

describe('a sentence of the physics', () => {
  it.each([
    ['us', 'The fuel temperature must be between -40 degF and 176 degF, but it is 194 degF.'],
    ['si', 'The fuel temperature must be between -40 degC and 80 degC, but it is 90 degC.'],
  ] as const)('is shown in the units of its reader: %s', (system, sentence) => {
    expect(inSystem(system)(reasonOf(() => density(gasoline, 363.15)))).toBe(sentence);
  });

  it.each(['us', 'si'] as const)('has no raw digits left in %s', (system) => {
    const sentence = inSystem(system)(reasonOf(() => pumpFromTests([{ voltage: 13.5, points: curve }])));
    expect(sentence).toMatch(/flow rises from [\d.]+ (L|gal)\/h to/);
    expect(sentence).not.toMatch(/\[|\d{5}/);
  });

  it('without a quantity stays as it is', () => {
    expect(inSystem('us')('The flow must be above zero. [sic]')).toBe('The flow must be above zero. [sic]');
    expect(inSystem('us')(`At ${said(-0.5, 'length')}.`)).toBe('At -19.7 in.');
  });
});
