import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../server/src/checking/checked.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import { type Path, schemaAt } from '../../server/src/sheet/schema.ts';
import { fixtures, readFixture, readMarked } from './fixture.ts';

const SAMPLES = 'samples';

const texts = [
  ...fixtures().flatMap(({ folder, bad }) => bad.map((file) => [`${folder}/${file}`, readFixture(folder, file)])),
  ...readdirSync(SAMPLES)
    .filter((file) => file.endsWith('.build.yaml'))
    .map((file) => [file, readFileSync(`${SAMPLES}/${file}`, 'utf8')]),
] as [string, string][];

/** The paths under a new value whose schema says that only a person may state what is written there. */
function attestedIn(path: Path, value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap((item, index) => attestedIn([...path, index], item));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([name, inner]) => attestedIn([...path, name], inner));
  return schemaAt(path)?.attested?.some((one) => one === value) ? [`${path.join('.')}: ${value}`] : [];
}

describe('what a person attests', () => {
  it.each([
    ['handover.pressure-test', true],
    ['handover.extinguisher', true],
    ['handover.road-use-notice', true],
    ['handover.fuel-work', 'licensed'],
    ['handover.electrical-work', 'licensed'],
    ['ignition.polarity', 'verified'],
    ['ignition.rotor-phasing', 'checked'],
    ['stages.1.changes.ignition.polarity', 'verified'],
  ])('is known by the schema: %s: %s', (path, value) => {
    const steps = path.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    expect(attestedIn(steps, value)).toEqual([`${path}: ${value}`]);
  });

  it('is written by no repair of any finding, whether it holds or not', () => {
    const told = texts.flatMap(([file, text]) =>
      checkText(readMarked(text).text, noHouse).findings.flatMap(({ found, repairs }) =>
        repairs.flatMap(({ title, changes }) =>
          changes
            .flatMap((change) => ('set' in change ? attestedIn(change.set, change.to) : []))
            .map((what) => `${file} ${found}, "${title}": ${what}`),
        ),
      ),
    );
    expect(told).toEqual([]);
  });
});
