import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Catalog } from '../../../server/src/sheet/catalog.ts';
import { open, PARTS, shop } from './shop.ts';

const pieces = [
  '  - { id: a-1, cost: 3, pump: { current: 9 A } }\n',
  '  - id: a-2\n    # counted\n    coil: { resistance: 0.6 ohm }\n',
  '  - { id: a-1, pump: {} }\n',
  '  - { id: a-3, pump: { placment: in-tank } }\n',
  '  - { id: a-4, pump: {}, coil: {} }\n',
  '  - { cost: 3, line: {} }\n',
  '  - { id: a-5, cost: many, line: { material: ptfe } }\n',
  '  - broken: [\n',
  '  -\n',
];
const lists = fc.array(fc.constantFrom(...pieces), { maxLength: 7 });
const kits = fc.array(
  fc.constantFrom('  - { id: k-1, kits: [k-2] }\n', '  - { id: k-2, kits: [k-1] }\n', '  - { id: a-1 }\n'),
  {
    maxLength: 3,
  },
);
const texts = fc
  .tuple(lists, kits)
  .map(([parts, sets]) => `format: 1\nparts:\n${parts.join('')}${sets.length ? `kits:\n${sets.join('')}` : ''}`);

describe('a catalog that is edited', () => {
  it('says after any edits what it says when it is opened so', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(fc.array(texts, { minLength: 2, maxLength: 5 }), (versions) => {
        const service = shop({});
        let before: Catalog | undefined;
        for (const [index, text] of versions.entries()) {
          open(service, PARTS, text, index + 1);
          const fresh = shop({});
          open(fresh, PARTS, text);
          expect(service.diagnose(PARTS)).toEqual(fresh.diagnose(PARTS));
          before = new Catalog(text, before);
          const anew = new Catalog(text);
          expect([before.ids('parts'), before.ids('kits'), before.twice()]).toEqual([
            anew.ids('parts'),
            anew.ids('kits'),
            anew.twice(),
          ]);
          for (const kind of ['pump', 'coil', 'line'] as const) expect(before.ofKind(kind)).toEqual(anew.ofKind(kind));
          for (const id of before.ids('parts')) expect(before.placesOf(id)).toEqual(anew.placesOf(id));
        }
      }),
      { numRuns: 60, seed: 3 },
    );
  });
});
