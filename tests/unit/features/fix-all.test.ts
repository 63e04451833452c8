import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Service } from '../../../server/src/service.ts';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';

const SHEET = 'file:///shop/one.build.yaml';

/** A text after everything that needs no choice is mended. */
function mended(text: string): string {
  const service = new Service();
  service.workspace.put({ uri: SHEET, kind: 'sheet', version: 1, text });
  return applyEdits(text, inOneGo(service.resolve(SHEET, { all: true })));
}

describe('mending all that needs no choice', () => {
  it.each([
    ['FUEL-SYSTEM: {}', 'fuel-system: {}'],
    ['FORMAT: 1\nFUEL-SYSTEM: {}\n', 'format: 1\nfuel-system: {}\n'],
    [
      'format: 1\nfuel-sistem: { Pump: { placment: intank } }\n',
      'format: 1\nfuel-system: { pump: { placement: in-tank } }\n',
    ],
    ['format: 1\ntitle: Wagon\ntitle: Wagon\nfuel: e85\n', 'format: 1\ntitle: Wagon\nfuel: { grade: e85 }\n'],
  ])('takes one run: %j', (text, after) => {
    expect(mended(text)).toContain(after);
    expect(mended(mended(text))).toBe(mended(text));
  });

  it('leaves what one repair would take from another', () => {
    const text = 'format: 1\nengine: { cylindrs: 8, cylindres: 6 }\n';
    expect(mended(text)).toBe('format: 1\nengine: { cylinders: 8, cylindres: 6 }\n');
  });

  it.each(readdirSync('samples').filter((name) => name.endsWith('.build.yaml')))('takes one run of %s', (name) => {
    const once = mended(readFileSync(`samples/${name}`, 'utf8'));
    expect(mended(once)).toBe(once);
  });
});
