import { describe, expect, it } from 'vitest';
import { Catalog } from '../../../server/src/sheet/catalog.ts';
import { open, PARTS, SHEET, shop } from './shop.ts';

const head = 'format: 1\nparts:\n';
const sheet = 'format: 1\nfuel-system: { pump: { use: good-1 } }\n';
const good = '  - { id: good-1, cost: 3.5, pump: { current: 9 A } }\n';

/** What is told of the part that a sheet uses. */
function told(catalog: string): string[] {
  const service = shop({ [PARTS]: catalog });
  open(service, SHEET, sheet);
  return service.diagnose(SHEET).flatMap(({ code }) => (code.startsWith('catalog/') ? [code] : []));
}

describe('a hostile catalog', () => {
  it.each([
    ['a part of a megabyte before it', `${head}  - { id: huge, note: "${'x'.repeat(1_100_000)}", pump: {} }\n${good}`],
    [
      'a hundred thousand parts around it',
      head + '  - { id: a, pump: {} }\n'.repeat(50_000) + good + '  - { id: b, pump: {} }\n'.repeat(50_000),
    ],
    ['a part with a broken line beside it', `${head}  - id: broken\n    pump: { current: [ }\n${good}`],
    [
      'ids that are words of the language',
      `${head}  - { id: __proto__, pump: {} }\n  - { id: constructor, pump: {} }\n${good}`,
    ],
    ['braces opened a thousand times beside it', `${head}  - { id: deep, note: ${'['.repeat(1000)} }\n${good}`],
  ])('with %s still gives the part', { timeout: 60_000 }, (_, catalog) => {
    expect(told(catalog).filter((code) => code !== 'catalog/price-old')).toEqual([]);
  });

  it('tells a megabyte of one part at the place where it is used', { timeout: 60_000 }, () => {
    const huge = `${head}  - { id: good-1, note: "${'x'.repeat(1_100_000)}", pump: {} }\n`;
    expect(told(huge)).toEqual(['catalog/part-broken']);
  });

  it('of twenty megabytes is not read', () => {
    expect(new Catalog(head + `# ${'x'.repeat(98)}\n`.repeat(200_000)).ids('parts')).toEqual([]);
  });

  it('follows kits within kits no further than it must', { timeout: 60_000 }, () => {
    const kits = Array.from(
      { length: 3000 },
      (_, index) => `  - { id: k-${index}, kits: [k-${index + 1}, k-${index + 2}] }\n`,
    );
    const service = shop({ [PARTS]: `${head}${good}kits:\n${kits.join('')}` });
    open(service, SHEET, 'format: 1\nkits: [k-0]\n');
    expect(service.diagnose(SHEET).filter(({ code }) => code.startsWith('catalog/'))).toEqual([]);
  });

  it('takes an id given ten thousand times for one, and says so a few times', { timeout: 60_000 }, () => {
    const catalog = new Catalog(head + good.repeat(10_000));
    expect(catalog.ids('parts')).toEqual(['good-1']);
    expect(catalog.twice()[0]?.ranges.length).toBeLessThanOrEqual(20);
  });
});
