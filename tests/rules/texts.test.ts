import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cautions } from '../../server/src/checking/cautions.ts';
import { checkText } from '../../server/src/checking/checked.ts';
import { rules } from '../../server/src/generated/rules.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import { type FieldSchema, houseRoot, resolve, root } from '../../server/src/sheet/schema.ts';
import { fixtures, readFixture, readMarked } from './fixture.ts';

/** Words we do not use, and what we say. */
const BANNED: Record<string, RegExp> = {
  'American spelling':
    /\b(catalogue|litres?|colours?|metres?|aluminium|tyres?|centres?|grey|licence|favour|behaviour|mould|fibre|analyse|programme)\b/i,
  'external pump': /\bin-line\b/i,
  'inertia switch': /\bimpact switch\b/i,
  intercooler: /\baftercooler\b/i,
  'pressure drop': /\bpressure loss\b/i,
  'distributor with coil and module built in': /\bself-contained\b/i,
  'it collapses': /\bsucked empty\b/i,
  'with a lamp, never by hand': /\bfeel (along|for it|every)\b/i,
  'local codes': /\blocal rules\b/i,
  'no value of the program': /\b(undefined|null|NaN)\b|\[object/,
};

const samples = readdirSync('samples').filter((file) => file.endsWith('.build.yaml'));
const sheets = [
  ...fixtures().flatMap(({ folder, bad }) =>
    bad.map((file) => ({ file: `${folder}/${file}`, text: readMarked(readFixture(folder, file)).text })),
  ),
  ...samples.map((file) => ({ file, text: readFileSync(`samples/${file}`, 'utf8') })),
];

type Text = { at: string; text: string };

const written: Text[] = rules.flatMap(({ id, title, why, inspect, remedy, source }) =>
  [title, why, inspect, remedy, source].map((text) => ({ at: id, text })),
);

const shown: Text[] = sheets.flatMap(({ file, text }) =>
  checkText(text, noHouse).findings.flatMap(({ found, message, related, repairs }) => [
    { at: `${file} ${found}`, text: message },
    ...related.map((one) => ({ at: `${file} ${found}`, text: one.message })),
    ...repairs.map(({ title }) => ({ at: `${file} ${found}`, text: title })),
  ]),
);

function schemaTexts(schema: FieldSchema, told = new Set<FieldSchema>()): Text[] {
  const own = resolve(schema);
  if (told.has(own)) return [];
  told.add(own);
  const inner = [...Object.values(own.properties ?? {}), ...[own.items ?? []].flat()];
  const texts = [own.title, own.description, ...(own.enumDescriptions ?? [])].filter((text) => text !== undefined);
  return [...texts.map((text) => ({ at: own.title ?? '', text })), ...inner.flatMap((one) => schemaTexts(one, told))];
}

const fields = [...schemaTexts(root), ...schemaTexts(houseRoot)];
const dangers: Text[] = Object.entries(cautions).map(([at, text]) => ({ at, text }));

function withPattern(texts: readonly Text[], pattern: RegExp): string[] {
  return texts.filter(({ text }) => pattern.test(text)).map(({ at, text }) => `${at}: ${text}`);
}

describe('the texts of rules, findings and fields', () => {
  it('are all there', () => {
    expect(written.length).toBeGreaterThan(500);
    expect(shown.length).toBeGreaterThan(500);
    expect(fields.length).toBeGreaterThan(300);
  });

  it.each(Object.entries(BANNED))('say %s', (_, pattern) => {
    expect(withPattern([...written, ...shown, ...fields, ...dangers], pattern)).toEqual([]);
  });

  it('are plain where an editor shows them plain: messages, repairs and titles have no backticks', () => {
    const titles = rules.map(({ id, title }) => ({ at: id, text: title }));
    expect(withPattern([...shown, ...titles], /`/)).toEqual([]);
  });

  it('begin with a capital, and messages end as sentences do', () => {
    expect(withPattern(shown, /^[a-z]/)).toEqual([]);
    const messages = sheets.flatMap(({ file, text }) =>
      checkText(text, noHouse).findings.map(({ message }) => ({ at: file, text: message })),
    );
    expect(withPattern(messages, /[^.?]$/)).toEqual([]);
  });

  it('name a source for every number of a rule', () => {
    const known =
      /common practice|from memory|definition|balance|law|kinematics|continuity|\b(19|20)\d\d\b|ISO|SAE|NACA|Heywood|ABYC|rating|curve|data/;
    expect(rules.filter(({ source }) => !known.test(source)).map(({ id, source }) => `${id}: ${source}`)).toEqual([]);
  });
});
