import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isMap, isPair, isScalar, isSeq, parseDocument } from 'yaml';
import { type FieldSchema, houseRoot, resolve, root } from '../../server/src/sheet/schema.ts';
import { fixtures, readFixture, readMarked } from './fixture.ts';

const SAMPLES = 'samples';

/** The names we have made up. A title begins with one of them, and nothing else in it has a capital letter. */
const INVENTED = [
  'Counter note',
  'Ember coupe',
  'Ferry van',
  'Gravel hauler',
  'Kiln pair',
  'Lantern sedan',
  'Loom wagon',
  'Millrace stroker',
  'Night shift',
  'Orchard pickup',
  'Overreach roadster',
  'Quarry wagon',
  'Saddle coupe',
  'Twin chimney',
];

/** The one proper name, of the shop. */
const SHOP = 'Tallow Shed Garage';

/** Capital letters that are no name: fuels, units and terms of the trade. */
const TERMS = /\b(E85|E10|AWG|PTFE|V8|L\/h|L|I)\b/g;

/** The displacements of a set together must not be the range of one maker: whole tenths that many know are left out. */
const FAMILIAR_SIZES = ['3.8 L', '4.6 L', '5.0 L', '5.4 L', '5.7 L', '5.8 L', '6.2 L', '302 in^3', '350 in^3'];

const samples = readdirSync(SAMPLES)
  .filter((file) => file.endsWith('.build.yaml'))
  .map((file) => ({ file, text: readFileSync(`${SAMPLES}/${file}`, 'utf8') }));

const sheets = [
  ...samples,
  ...fixtures().flatMap(({ folder, bad, good }) =>
    [...bad, ...good].map((file) => ({
      file: `${folder}/${file}`,
      text: readMarked(readFixture(folder, file)).text,
    })),
  ),
];

/** The texts a person has written under the keys `title` and `name`, and every comment. */
function namesIn(text: string): string[] {
  const names: string[] = [];
  const walk = (node: unknown): void => {
    if (isSeq(node)) for (const item of node.items) walk(item);
    if (!isMap(node)) return;
    for (const pair of node.items) {
      if (!isPair(pair)) continue;
      const key = isScalar(pair.key) ? pair.key.value : undefined;
      if ((key === 'title' || key === 'name') && isScalar(pair.value)) names.push(String(pair.value.value));
      walk(pair.value);
    }
  };
  walk(parseDocument(text).contents);
  return names;
}

function commentsIn(text: string): string[] {
  return text.split('\n').flatMap((line) => /(?:^|\s)#(.*)$/.exec(line)?.[1] ?? []);
}

/** A text without what may have a capital letter: our own names, terms, and the first word of a sentence. */
function withoutOurs(text: string): string {
  let rest = text.replaceAll(SHOP, '');
  for (const name of INVENTED) rest = rest.replaceAll(name, '');
  return rest.replaceAll(TERMS, '').replaceAll(/(^|[.:;?!(]\s+|^\s*)[A-Z](?=[a-z ]|$)/g, '$1');
}

function examplesIn(schema: FieldSchema, told = new Set<FieldSchema>()): unknown[] {
  const own = resolve(schema);
  if (told.has(own)) return [];
  told.add(own);
  const inner = [...Object.values(own.properties ?? {}), ...[own.items ?? []].flat()];
  return [...(own.examples ?? []), ...inner.flatMap((one) => examplesIn(one, told))];
}

describe('names in samples and fixtures', () => {
  it.each(samples)('$file has a title we have made up, or none', ({ text }) => {
    const title = parseDocument(text).get('title');
    if (title !== undefined) expect(INVENTED.some((name) => String(title).startsWith(`${name}, `))).toBe(true);
  });

  it('have no capital letter but those of our own list and of terms', () => {
    const foreign = sheets.flatMap(({ file, text }) =>
      namesIn(text)
        .filter((name) => /[A-Z]/.test(withoutOurs(name)))
        .map((name) => `${file}: ${name}`),
    );
    expect(foreign).toEqual([]);
  });

  it('have none in comments either', () => {
    const foreign = samples.flatMap(({ file, text }) =>
      commentsIn(text)
        .filter((comment) => /[A-Z]/.test(withoutOurs(comment.trim())))
        .map((comment) => `${file}:${comment}`),
    );
    expect(foreign).toEqual([]);
  });

  it('see a name that is not ours', () => {
    expect(withoutOurs('Quarry wagon, 4.9 liter')).not.toMatch(/[A-Z]/);
    expect(withoutOurs('four-bore from Somewhere Road')).toMatch(/[A-Z]/);
    expect(withoutOurs('SX-4 regulator')).toMatch(/[A-Z]/);
  });
});

describe('figures in samples, fixtures and examples', () => {
  const examples = [...examplesIn(root), ...examplesIn(houseRoot)].flat(9).map(String);

  it('are not the sizes of one range', () => {
    const told = sheets.filter(({ text }) =>
      FAMILIAR_SIZES.some((size) => new RegExp(`displacement: '?${size.replaceAll(/[.^]/g, '\\$&')}`).test(text)),
    );
    expect(told.map(({ file }) => file)).toEqual([]);
    expect(examples.filter((one) => FAMILIAR_SIZES.includes(one))).toEqual([]);
  });

  it('are together no leaflet: flow, power and pressure of a unit that many know', () => {
    const familiar = ['800 cfm', '80 lb/h', '550 hp', '58 psi'];
    expect(examples.filter((one) => familiar.includes(one))).toEqual([]);
    const told = sheets.filter(({ text }) => familiar.filter((one) => text.includes(` ${one}`)).length > 1);
    expect(told.map(({ file }) => file)).toEqual([]);
  });
});
