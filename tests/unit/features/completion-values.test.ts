import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completionsAt } from '../../../server/src/features/completion.ts';
import { child, type FieldSchema, root } from '../../../server/src/sheet/schema.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { type DimensionUnits, dimensions } from '../../../server/src/units/units.ts';
import { atCursor, labels, proposals, taken } from './cursor.ts';

const PLACEMENTS = ['in-tank', 'tank-module', 'surge-tank', 'external'];
const CONSUMERS = ['brake-booster', 'pcv', 'transmission', 'distributor', 'regulator'];

describe('completion of choices', () => {
  it.each([
    ['a choice', 'fuel-system:\n  pump:\n    placement: ‸\n', PLACEMENTS],
    ['a choice on a line of its own', 'fuel-system:\n  pump:\n    placement:\n      ‸\n', PLACEMENTS],
    ['a choice that is begun', 'fuel-system:\n  pump:\n    placement: in‸\n', PLACEMENTS],
    ['a choice to be changed', 'fuel-system:\n  pump:\n    placement: ‸in-tank\n', PLACEMENTS],
    ['a choice in braces', 'fuel-system: { pump: { placement: ‸ } }\n', PLACEMENTS],
    ['a choice in quotes', 'fuel-system: { pump: { placement: "in‸" } }\n', PLACEMENTS],
    ['a choice of an item', 'stages:\n  - { induction: ‸ }\n', ['natural', 'roots', 'centrifugal', 'turbo']],
    ['a truth', 'fuel-system: { tank: { vent: ‸ } }\n', ['true', 'false']],
    ['a version', 'format: ‸\n', ['2', '1']],
    ['an item of a list in brackets', 'vacuum-reference: { shared-with: [pcv, dis‸] }\n', CONSUMERS],
    ['an item of a list in lines', 'vacuum-reference:\n  shared-with:\n    - ‸\n', CONSUMERS],
  ])('%s', (_, marked, expected) => {
    expect(labels(marked)).toEqual(expected);
  });

  it.each([
    'format: 1‸\n',
    'fuel-system:\n  pump:\n    placement: in-tank‸\n',
    'fuel-system:\n  pump:\n    placement: in-tank ‸ # mine\n',
    'fuel-system: { pump: { placement: "in-tank‸" } }\n',
    'fuel-system: { pump: { placement: "in-tank"‸ } }\n',
    'fuel-system: { pump: { placement: "in-tank"‸, name: "x" } }\n',
    'fuel: { grade: gasoline‸ }\n',
    'fuel: { leaded: false‸ }\n',
    'vacuum-reference: { shared-with: [pcv‸] }\n',
    'silence:\n  - rule: paper/no-title‸\n',
  ])('offers nothing once the value is complete: %j', (marked) => {
    expect(labels(marked)).toEqual([]);
  });

  it.each([
    'title: ‸\n',
    'title: Qu‸\n',
    'engine: { cylinders: ‸ }\n',
    'limits: { surplus: 2‸ }\n',
    'stages:\n  - { cost: 4‸ }\n',
    'notes:\n  - { date: 2‸, note: ‸}\n'.replace('note: ‸', 'note: x'),
    'x-own: a‸\n',
  ])('has nothing to offer for a text or a plain number: %j', (marked) => {
    expect(labels(marked)).toEqual([]);
  });

  it.each([
    [
      'fuel-system: {\n  pump: { placement: in‸, quantity: 2 } }\n',
      'fuel-system: {\n  pump: { placement: in-tank‸, quantity: 2 } }\n',
    ],
    [
      'fuel-system: { pump: {\n  placement: in‸, quantity: 2\n} }\n',
      'fuel-system: { pump: {\n  placement: in-tank‸, quantity: 2\n} }\n',
    ],
    ['fuel-system:\n  pump:\n    placement: in‸ # mine\n', 'fuel-system:\n  pump:\n    placement: in-tank‸ # mine\n'],
    ['fuel-system: { pump: { placement: "in‸" } }\n', 'fuel-system: { pump: { placement: "in-tank‸" } }\n'],
    ["fuel-system:\n  pump:\n    placement: 'in‸\n", "fuel-system:\n  pump:\n    placement: 'in-tank‸\n"],
    [
      'vacuum-reference:\n  shared-with:\n    - pcv-‸valve # mine\n',
      'vacuum-reference:\n  shared-with:\n    - brake-booster‸ # mine\n',
    ],
  ])('replaces the value and nothing beside it: %j', (marked, after) => {
    expect(taken(marked)).toBe(after);
  });

  it('names rules where they are silenced', () => {
    expect(labels('silence:\n  - { rule: ‸ }\n')).toContain('ignition/contact-points');
  });
});

describe('completion of units', () => {
  it.each([
    ['4.9‸', '4.9 L‸'],
    ['4.9 ‸', '4.9 L‸'],
    ['302‸', '302 in^3‸'],
    ['302  ‸', '302  in^3‸'],
    ['302 i‸', '302 in^3‸'],
    ['302i‸', '302in^3‸'],
    ['4 9/10 ‸', '4 9/10 L‸'],
    ['4.9 +/- 0.1 ‸', '4.9 +/- 0.1 L‸'],
    ['4.8..5 ‸', '4.8..5 L‸'],
    ['"4.9 ‸"', '"4.9 L‸"'],
  ])('gives a number its unit: %s', (written, after) => {
    const sheet = (value: string) => `engine: { displacement: ${value}, cylinders: 8 } # mine\n`;
    expect(taken(sheet(written))).toBe(sheet(after));
  });

  it.each([
    ['site: { altitude: 900 ‸ }\n', ['900 m', '900 ft', '900 in']],
    ['site: { altitude: 9000 ‸ }\n', ['9000 ft', '9000 in', '9000 mm', '9000 cm']],
    ['engine: { displacement: 4.4 ‸ }\n', ['4.4 L']],
    ['engine: { displacement: 350 ‸ }\n', ['350 in^3', '350 cm^3']],
    ['engine: { displacement: 350 c‸ }\n', ['350 cid', '350 ci', '350 cm^3', '350 cc']],
    ['stages:\n  - power: 90000 ‸\n', ['90000 W']],
    ['stages:\n  - power: 9000000000 ‸\n', ['9000000000 hp', '9000000000 kW', '9000000000 PS', '9000000000 W']],
    ['engine: { idle: 750 ‸ }\n', ['750 rpm']],
    ['fuel: { ethanol-share: 74 ‸ }\n', ['74 %']],
  ])('ranks by the examples of the field and by what it allows: %s', (marked, first) => {
    expect(labels(marked).slice(0, first.length)).toEqual(first);
  });

  it('names each unit once until a letter of it is typed, and says that there is more', () => {
    const at = (marked: string) => {
      const { text, offset } = atCursor(marked);
      return completionsAt(text, offset, root);
    };
    expect(at('engine: { displacement: 350 ‸ }\n').incomplete).toBe(true);
    expect(at('engine: { displacement: 350 c‸ }\n').incomplete).toBe(false);
  });

  it('is not offered any longer once something else follows the number at once', () => {
    const [first] = proposals('engine: { displacement: 350‸ }\n');
    expect(first).toMatchObject({ label: '350 in^3', filter: '350' });
  });

  it.each([
    '350 in^3',
    '350in^3',
    '350 cid',
    '4.9 L',
    '4.9 l',
    '4.9 L +/- 0.1',
    '4.9 L +/- 5 %',
    '1 m',
    '',
    '-',
    'about',
    '4.9 zebras',
  ])('offers nothing where %j stands', (written) => {
    const allowed = written === '1 m' ? 'site: { altitude: 1 m‸ }\n' : `engine: { displacement: ${written}‸ }\n`;
    expect(labels(allowed)).toEqual([]);
  });

  it('offers nothing in the middle of a value: it would lose what stands behind the cursor', () => {
    expect(labels('engine: { displacement: 3‸50 in^3 }\n')).toEqual([]);
    expect(labels('fuel-system: { pump: { flow-at: [[40 p‸si, 250 L/h]] } }\n')).toEqual([]);
  });

  it('goes on with a unit that begins like another', () => {
    expect(labels('throttle-body: { injectors: { static-flow: 80 lb‸ } }\n')).toEqual(['80 lb/h']);
    expect(labels('fuel: { density: 745 kg/m‸ }\n')).toEqual(['745 kg/m^3']);
  });

  it('tells by what test fluid a volume counts as a mass', () => {
    const cc = proposals('throttle-body: { injectors: { static-flow: 840 ‸ } }\n').find(({ label }) =>
      label.endsWith('cc/min'),
    );
    expect(cc?.detail).toBe('cc/min is read with a test fluid of 0.720 kg/L');
  });

  it('keeps the number as it is written, and every spelling can be read', () => {
    let offered = 0;
    const fields = quantityFields(root, []);
    const number = fc.oneof(
      fc.integer({ min: 0, max: 9999 }).map(String),
      fc.constantFrom('1 3/4', '0.75', '2e2', '3 +/- 1'),
    );
    fc.assert(
      fc.property(fc.constantFrom(...fields), number, fc.boolean(), ({ path, schema }, written, hasBlank) => {
        const marked = `${path.map((name) => `${name}: { `).join('')}${written}${hasBlank ? ' ' : ''}‸`;
        for (const { insert } of proposals(marked.replace(/\{ (?=[^{]*$)/, ''))) {
          offered++;
          expect(insert.startsWith(written)).toBe(true);
          expect(isQuantity(parseQuantity(insert, schema.dimension as keyof typeof dimensions))).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
    expect(offered).toBeGreaterThan(300);
  });

  it('any spelling of a unit that is typed out is among what is offered before its last letter', () => {
    let compared = 0;
    for (const { path, schema } of quantityFields(root, []).slice(0, 40)) {
      const { units } = dimensions[schema.dimension as keyof typeof dimensions] as DimensionUnits;
      for (const spelling of units.flatMap(({ name, also = [] }) => [name, ...also])) {
        if (spelling.length < 2 || /^[\d:]/.test(spelling)) continue;
        const begun = `12 ${spelling.slice(0, -1)}`;
        const offered = labels(`${path.map((name) => `${name}: { `).join('')}`.replace(/\{ $/, `${begun}‸`));
        const isComplete = isQuantity(parseQuantity(begun, schema.dimension as keyof typeof dimensions));
        const isRead = isQuantity(parseQuantity(`12 ${spelling}`, schema.dimension as keyof typeof dimensions));
        const others = offered.filter((label) => label.toLowerCase().startsWith(`12 ${spelling}`.toLowerCase()));
        if (isComplete || !isRead || others.length === 0) continue;
        expect(offered).toContain(`12 ${spelling}`);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });
});

function quantityFields(schema: FieldSchema, path: string[]): { path: string[]; schema: FieldSchema }[] {
  return Object.keys(schema.properties ?? {}).flatMap((name) => {
    const field = child(schema, name);
    if (!field) return [];
    return field.dimension ? [{ path: [...path, name], schema: field }] : quantityFields(field, [...path, name]);
  });
}

describe('completion in long and hostile lines', () => {
  const many = 50_000;

  it.each([
    ['dots', `engine:\n  displacement: 1${'.'.repeat(many)}1 a ${'.'.repeat(many)}‸\n`],
    ['digits', `engine:\n  displacement: ${'1'.repeat(many)}‸\n`],
    ['digits and blanks', `engine:\n  displacement: ${'1 '.repeat(many)}‸\n`],
    ['fractions', `engine:\n  displacement: ${'1/'.repeat(many)}‸\n`],
    ['signs', `engine:\n  displacement: ${'1+/-'.repeat(many)}‸\n`],
    ['blanks', `engine:\n  displacement: 1${' '.repeat(many)}‸${' '.repeat(many)}\n`],
    ['colons', `engine:\n  ${': '.repeat(1000)}‸\n`],
    ['brackets', `x-own: ${'['.repeat(many)}‸\n`],
    ['dashes', `${'- '.repeat(90)}‸\n`],
    ['commas', `title: ${','.repeat(many)}‸\n`],
    ['quotes', `title: ${'"'.repeat(many)}‸\n`],
    ['words', `${'a-'.repeat(many)}‸${'b-'.repeat(many)}\n`],
    ['hashes', `title: ${'#'.repeat(many)}‸\n`],
    ['lines of blanks', `${`${' '.repeat(500)}\n`.repeat(100)}‸\n`],
  ])('is bounded: %s', { timeout: 5_000 }, (_, marked) => {
    const { text, offset } = atCursor(marked);
    const { replace } = completionsAt(text, offset, root);
    expect(replace.start).toBeLessThanOrEqual(offset);
    expect(replace.end).toBeGreaterThanOrEqual(offset);
    expect(text.slice(replace.start, replace.end)).not.toMatch(/[\r\n]/);
  });

  it.each(['\n', '\r\n', '\r'])('replaces nothing beyond the end of a line that ends with %j', (end) => {
    const { text, offset } = atCursor(`engine:\n  displacement: 350 ‸`);
    const lines = `${text}${end}  cylinders: 8${end}`;
    expect(completionsAt(lines, offset, root).replace.end).toBeLessThanOrEqual(offset);
  });
});
