import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { pathText } from '../../../server/src/sheet/entry.ts';
import { fixesThatHold } from '../../../server/src/sheet/fixes-that-hold.ts';
import type { Problem } from '../../../server/src/sheet/problem.ts';
import { type FieldSchema, type Path, resolve, root } from '../../../server/src/sheet/schema.ts';
import { read, unmarked, withMarks } from './marked.ts';

/** A sheet with what is wrong between guillemets, then for each place code and message. */
type Case = [sheet: string, ...told: [code: string, message: string][]];

const unknownFields: Case[] = [
  [
    'format: 1\nengine: { «displacment»: 4.9 L }\n',
    ['sheet/unknown-field', '"displacment" is not a field of "engine"; did you mean "displacement"?'],
  ],
  ['format: 1\nengine: { «zzz»: 4.9 L }\n', ['sheet/unknown-field', '"zzz" is not a field of "engine".']],
  ['format: 1\n«foo»: 1\n', ['sheet/unknown-field', '"foo" is not a field of a build sheet.']],
  ['format: 1\n«null»: 1\n', ['sheet/unknown-field', '"null" is not a field of a build sheet.']],
  ['format: 1\n«~»: 1\n', ['sheet/unknown-field', '"~" is not a field of a build sheet.']],
  ['format: 1\n«: 1»\n', ['sheet/unknown-field', 'A field has no name here; write one before the colon.']],
  [
    'format: 1\nengine: { «__proto__»: 5, «constructor»: 4 }\n',
    ['sheet/unknown-field', '"__proto__" is not a field of "engine".'],
    ['sheet/unknown-field', '"constructor" is not a field of "engine".'],
  ],
  [
    'format: 1\nengine: { «cylinders 8» }\n',
    ['sheet/unknown-field', 'A colon and a space belong between a field and its value: write "cylinders: 8".'],
  ],
  [
    'format: 1\nnotes:\n  - { «nte»: dry }\n',
    ['sheet/unknown-field', '"nte" is not a field of an item of "notes"; did you mean "note"?'],
  ],
  [
    'format: 1\nstages:\n  - changes:\n      engine: { «displacment»: 4 L }\n',
    ['sheet/unknown-field', '"displacment" is not a field of "engine"; did you mean "displacement"?'],
  ],
  ['format: 1\nx-own: { anything: [1, { b: 2 }] }\n'],
];

const missingFields: Case[] = [
  ['«title»: x\n', ['sheet/missing-field', 'This sheet needs a field "format".']],
  ['# a comment\n\n«title»: x\n', ['sheet/missing-field', 'This sheet needs a field "format".']],
  ['«»', ['sheet/missing-field', 'This sheet needs a field "format".']],
  ['«FORMAT»: 1\n', ['sheet/unknown-field', '"FORMAT" is not a field of a build sheet; did you mean "format"?']],
  ['format: 1\nnotes:\n  - «date»: 2026-01-01\n', ['sheet/missing-field', 'An item of "notes" needs a field "note".']],
  [
    'format: 1\nsilence:\n  - { «rule»: a/b }\n',
    ['sheet/missing-field', 'An item of "silence" needs a field "reason".'],
  ],
];

const wrongValues: Case[] = [
  [
    'format: 1\nfuel-system: { pump: { placement: «intank» } }\n',
    [
      'sheet/unknown-choice',
      '"intank" is not a choice for "placement"; did you mean "in-tank"? Choices: "in-tank", "tank-module", "surge-tank", "external".',
    ],
  ],
  [
    'format: 1\nfuel-system: { pump: { placement: «shed» } }\n',
    [
      'sheet/unknown-choice',
      '"shed" is not a choice for "placement". Choices: "in-tank", "tank-module", "surge-tank", "external".',
    ],
  ],
  [
    'format: 1\nvacuum-reference: { shared-with: [pcv, «brakes»] }\n',
    [
      'sheet/unknown-choice',
      '"brakes" is not a choice for an item of "shared-with". Choices: "brake-booster", "pcv", "transmission", "distributor", "regulator".',
    ],
  ],
  [
    'format: 1\nfuel-system: { tank: { vent: «yes» } }\n',
    ['sheet/wrong-type', '"vent" takes "true" or "false"; write "true".'],
  ],
  [
    'format: 1\nfuel-system: { tank: { vent: «"no"» } }\n',
    ['sheet/wrong-type', '"vent" takes "true" or "false"; write "false".'],
  ],
  ['format: 1\nfuel-system: { tank: { vent: «maybe» } }\n', ['sheet/wrong-type', '"vent" takes "true" or "false".']],
  [
    'format: 1\nengine: { cylinders: «"8"» }\n',
    ['sheet/wrong-type', '"cylinders" takes a whole number, such as "8"; write "8".'],
  ],
  ['format: 1\nengine: { cylinders: «8.5» }\n', ['sheet/wrong-type', '"cylinders" takes a whole number, such as "8".']],
  [
    'format: 1\nengine: { cylinders: «30» }\n',
    ['sheet/out-of-range', '"30" is out of range: "cylinders" runs from 1 to 16.'],
  ],
  [
    'format: 1\nengine: { displacement: «400 L» }\n',
    ['sheet/out-of-range', '"400 L" is out of range: displacement runs from 0.2 L to 20 L.'],
  ],
  [
    'format: 1\nstages: [{ power: «350 +/- 400 hp» }]\n',
    ['sheet/out-of-range', '"350 +/- 400 hp" is out of range: power runs from 5 hp to 5000 hp.'],
  ],
  [
    'format: 1\nengine: { «displacement»: [4.9 L] }\n',
    ['sheet/wrong-type', '"displacement" takes a quantity of volume, such as "4.9 L".'],
  ],
  [
    'format: 1\nengine: «5»\n',
    ['sheet/wrong-type', '"engine" takes fields of its own, such as "cylinders", "displacement", "compression-ratio".'],
  ],
  [
    'format: 1\nengine: «cylinders:8»\n',
    [
      'sheet/wrong-type',
      '"engine" takes fields of its own, such as "cylinders", "displacement", "compression-ratio"; write "{ cylinders: 8 }".',
    ],
  ],
  ['format: 1\nengine:\n  «cylinders»\n', ['sheet/wrong-type', '"cylinders" lacks a colon: write "cylinders:".']],
  ['«format»: {}\n', ['sheet/wrong-type', '"format" takes a whole number, such as "2".']],
  ['«format»:\n', ['sheet/wrong-type', '"format" is empty; it takes a whole number, such as "2".']],
  [
    'format: 1\nengine: { cylinders: «.nan» }\n',
    ['sheet/wrong-type', '"cylinders" takes a whole number, such as "8".'],
  ],
  [
    'format: 1\nfuel-system: { pump: { flow-at: «340 L/h» } }\n',
    ['sheet/wrong-type', '"flow-at" takes a list, such as "[[40 psi, 270 L/h], [60 psi, 225 L/h]]".'],
  ],
  [
    'format: 1\nfuel: «gasoline-e10»\n',
    [
      'sheet/wrong-type',
      '"fuel" takes fields of its own, such as "grade", "ethanol-share", "vapor-pressure"; write "{ grade: gasoline-e10 }".',
    ],
  ],
  [
    'format: 1\ntitle: «302»\n',
    ['sheet/wrong-type', '"title" takes a text, such as "Quarry wagon, 4.9 liter"; write \'"302"\'.'],
  ],
  [
    'format: 1\ntitle: «""»\n',
    ['sheet/wrong-type', '"title" is empty; it takes a text, such as "Quarry wagon, 4.9 liter".'],
  ],
  ['format: 1\nstages: «[]»\n', ['sheet/wrong-type', '"stages" takes 1 to 24 items.']],
  [
    'format: 1\n«stages»: { name: a }\n',
    [
      'sheet/wrong-type',
      '"stages" takes a list, such as "[{ name: first summer, power: 245 hp, induction: natural }]".',
    ],
  ],
  [
    'format: 1\nfuel-system: { pump: { flow-at: [[40 psi, 270 L/h], «[60 psi]»] } }\n',
    ['sheet/wrong-type', 'An item of "flow-at" takes a pair of pressure and flow, such as "[40 psi, 270 L/h]".'],
  ],
  ['format: «3»\n', ['sheet/old-format', 'This tool reads format 1 and 2; "3" is another version.']],
  ['«- a»\n- b\n', ['sheet/wrong-type', 'A build sheet takes fields of its own, such as "format", "title", "site".']],
];

const quantities: Case[] = [
  [
    'format: 1\nengine: { displacement: «4.9» }\n',
    ['sheet/quantity', '"4.9" needs a unit of volume: "L", "in^3", "cm^3", "m^3".'],
  ],
  [
    "format: 1\nengine: { displacement: '«4.9»' }\n",
    ['sheet/quantity', '"4.9" needs a unit of volume: "L", "in^3", "cm^3", "m^3".'],
  ],
  [
    'format: 1\nengine: { displacement: "4.9 «psi»" }\n',
    ['sheet/quantity', '"psi" is a unit of pressure; this field takes a unit of volume: "L", "in^3", "cm^3", "m^3".'],
  ],
  [
    'format: 1\nengine: { displacement: «"4.9\\u0020psi"» }\n',
    ['sheet/quantity', '"psi" is a unit of pressure; this field takes a unit of volume: "L", "in^3", "cm^3", "m^3".'],
  ],
  [
    'format: 1\nengine:\n  displacement: «|»\n    4.9 psi\n',
    ['sheet/quantity', '"psi" is a unit of pressure; this field takes a unit of volume: "L", "in^3", "cm^3", "m^3".'],
  ],
  [
    'format: 1\nengine: { redline: «5,500 rpm» }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write "5500 rpm".'],
  ],
  [
    'format: 1\nengine: { displacement: «4,9 L», cylinders: 8 }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write "4.9 L".'],
  ],
  [
    'format: 1\nengine: { displacement: «4,900 L» }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write "4.900 L".'],
  ],
  ['format: 1\nengine: { displacement: «4,9 psi» }\n', ['sheet/quantity', 'A comma ends a value in braces.']],
  ['format: 1\nengine:\n  redline: «5,500 rpm»\n', ['sheet/quantity', 'Write thousands without commas.']],
];

const brokenYaml: Case[] = [
  ['format: 1\nengine: { cylinders: «8»\n', ['sheet/syntax', 'A closing "}" is missing.']],
  ['format: 1\nengine: { cylinders: 8 «]»\n', ['sheet/syntax', 'A closing "}" is missing.']],
  ['format: 1\n«engine»\n', ['sheet/syntax', '"engine" lacks a colon: write "engine:".']],
  [
    'format: 1\nengine:\n  cylinders: 8\n «displacement»: 4 L\n',
    ['sheet/syntax', 'There is 1 space too few before "displacement".'],
  ],
  ['format: 1\nengine:\n«\t»cylinders: 8\n', ['sheet/syntax', 'This line is indented with a tab; YAML wants spaces.']],
  ['format: 1\ntitle: "ab«c»\n', ['sheet/syntax', 'A closing quote is missing.']],
  [
    'format: 1\ntitle: «a»: b\n',
    ['sheet/syntax', 'A value with ": " in it needs quotes; fields of its own begin on a line of their own.'],
  ],
  ['format: 1\ntitle: «@»x\n', ['sheet/syntax', 'A value cannot begin with this character; put the value in quotes.']],
  [
    'format: 1\nengine: { cylinders: 8, «cylinders»: 6 }\n',
    ['sheet/syntax', 'This field is already written in line 2; keep one of the two.'],
  ],
  [
    'format: 1\n«---»\nformat: 1\n',
    ['sheet/syntax', 'A build sheet holds one document; move what follows "---" to a file of its own.'],
  ],
  ['format: 1\nengine: «*nowhere»\n', ['sheet/syntax', 'No anchor of that name stands above.']],
  ['format: 1\nengine:\n  <<: «5»\n', ['sheet/syntax', 'Only fields can be merged: write an alias of a mapping.']],
  ['format: 1\n? «[a, b]»\n: c\n', ['sheet/syntax', 'The name of a field is a plain word.']],
  ['format: 1\n- «a»\n', ['sheet/syntax', 'A dash begins an item of a list, and here is no list.']],
  [
    'format: 1\nstages:\n  «-name»: x\n    power: 5 hp\n',
    ['sheet/syntax', 'A dash that begins an item needs a space after it.'],
  ],
  [
    'format: 1\nstages:\n  - name: x\n    «induction:roots»\n    power: 5 hp\n',
    ['sheet/syntax', 'A colon needs a space after it: "induction: roots".'],
  ],
  [
    'format: 1\nengine:\n  cylinders: 8\n   «displacement»: 4 L\n  idle: 700 rpm\n',
    ['sheet/syntax', 'There is 1 space too many before "displacement".'],
  ],
  [
    'format: 1\nstages:\n  - name: a\n   «power»: 5 hp\n  - name: b\n',
    ['sheet/syntax', 'There is 1 space too few before "power".'],
  ],
  [
    'format: 1\nengine:\n«\t»cylinders: 8\n\tidle: 700 rpm\nfuel: {}\n',
    ['sheet/syntax', 'This line is indented with a tab; YAML wants spaces. So is 1 more line.'],
  ],
  ['format: 1\n«engi»\nsite: {}\n', ['sheet/syntax', '"engi" is not finished: a field is written "name: value".']],
  [
    '«350 small block, two barrel»\ncall back re: pump\nneeds a return line\n',
    [
      'sheet/syntax',
      'No field of a build sheet is found here. Start with "format: 2", then write one field a line, such as "title: Quarry wagon".',
    ],
  ],
  [
    'format: 1\n«<<<<<<< ours»\ntitle: a\n=======\ntitle: b\n>>>>>>> theirs\n',
    [
      'sheet/conflict',
      'The text holds conflict markers of a version-control merge; choose one side and remove the markers.',
    ],
  ],
  ['format: 1\nnotes:\n  - note: |\n      Heading\n      =======\n      text\n'],
];

describe.each([
  ['a field that is not known', unknownFields],
  ['a field that is missing', missingFields],
  ['a value of the wrong kind', wrongValues],
  ['a quantity', quantities],
  ['broken YAML', brokenYaml],
] as [string, Case[]][])('%s', (_, cases) => {
  it.each(cases)('is told at its place: %j', (marked, ...told) => {
    for (const ending of ['\n', '\r\n']) {
      const { text } = unmarked(marked.replaceAll('\n', ending));
      const { problems } = read(text);
      const found = withMarks(
        text,
        problems.map(({ range }) => range),
      );
      expect(found).toBe(marked.replaceAll('\n', ending));
      expect(problems.map(({ code, message }) => [code, message])).toEqual(told);
    }
  });
});

/** A sheet before and after its first problem's preferred or only repair. */
const repairs: [before: string, after: string][] = [
  ['title: x\n', 'format: 2\ntitle: x\n'],
  ['title: x\r\nsite: {}\r\n', 'format: 2\r\ntitle: x\r\nsite: {}\r\n'],
  ['# head\n\ntitle: x\n', '# head\n\nformat: 2\ntitle: x\n'],
  ['\ufefftitle: x\n', '\ufeffformat: 2\ntitle: x\n'],
  ['%YAML 1.2\n---\ntitle: x\n', '%YAML 1.2\n---\nformat: 2\ntitle: x\n'],
  ['  title: x\n  site: {}\n', '  format: 2\n  title: x\n  site: {}\n'],
  ['{ title: x }\n', '{ format: 2, title: x }\n'],
  ['', 'format: 2\n'],
  ['# only', '# only\nformat: 2\n'],
  ['\ufeff', '\ufeffformat: 2\n'],
  ['? title\n: x\n', 'format: 2\n? title\n: x\n'],
  ['&a title: x\n', 'format: 2\n&a title: x\n'],
  ['title: x\rsite: {}\r', 'format: 2\rtitle: x\rsite: {}\r'],
  ['format: 2\nstages:\n  -name: x\n    power: 5 hp\n', 'format: 2\nstages:\n  - name: x\n    power: 5 hp\n'],
  ['format: 2\nstages:\n  - induction:roots\n', 'format: 2\nstages:\n  - { induction: roots }\n'],
  ['format: 2\nstages:\n  - name: x\n    induction:roots\n', 'format: 2\nstages:\n  - name: x\n    induction: roots\n'],
  ['format: 2\nstages: [{ induction:roots }]\n', 'format: 2\nstages: [{ induction: roots }]\n'],
  ['format: 2\nvacuum-reference { port: manifold }\n', 'format: 2\nvacuum-reference: { port: manifold }\n'],
  ['format: 1\nengine:\n  cylinders: 8\n   idle: 700 rpm\n', 'format: 1\nengine:\n  cylinders: 8\n  idle: 700 rpm\n'],
  ['format: 1\nengine:\n\tcylinders: 8\n\tidle: 700 rpm\n', 'format: 1\nengine:\n  cylinders: 8\n  idle: 700 rpm\n'],
  ['format: 1\nengine: { cylinders: 8\nsite: {}\n', 'format: 1\nengine: { cylinders: 8 }\nsite: {}\n'],
  ['format: 1\ntitle: "Wagon\nsite: {}\n', 'format: 1\ntitle: "Wagon"\nsite: {}\n'],
  ['format: 1\nfuel: E10\n', 'format: 1\nfuel: { grade: gasoline-e10 }\n'],
  ['format: 1\nfuel: { grade: E10 }\n', 'format: 1\nfuel: { grade: gasoline-e10 }\n'],
  ['format: 1\nstages: [{ induction: N/A }]\n', 'format: 1\nstages: [{ induction: natural }]\n'],
  ['format: 1\nignition: { trigger: points }\n', 'format: 1\nignition: { trigger: contact-points }\n'],
  ['format: 1\nengine: { max_rpm: 5000 rpm }\n', 'format: 1\nengine: { redline: 5000 rpm }\n'],
  ['call Joe\n\n# later\nbuy hose\n', 'format: 2\n# call Joe\n\n# later\n# buy hose\n'],
  ['format: 1\nengine: { displacment: 4.9 L } # mine\n', 'format: 1\nengine: { displacement: 4.9 L } # mine\n'],
  ['format: 1\nengine: { cylinders 8 }\n', 'format: 1\nengine: { cylinders: 8 }\n'],
  ['format: 1\nengine: { cylinders: "8" }\n', 'format: 1\nengine: { cylinders: 8 }\n'],
  ['format: 1\nengine: { redline: 5,500 rpm }\n', 'format: 1\nengine: { redline: 5500 rpm }\n'],
  ['format: 1\nengine: { displacement: 4,9 L }\n', 'format: 1\nengine: { displacement: 4.9 L }\n'],
  ['format: 1\ntitle: 302\n', 'format: 1\ntitle: "302"\n'],
  ['format: 1\nfuel: e85\n', 'format: 1\nfuel: { grade: e85 }\n'],
  ['format: 1\nvacuum-reference: below-blower\n', 'format: 1\nvacuum-reference: { port: below-blower }\n'],
  ["format: 1\nengine: { displacement: '4.9' }\n", "format: 1\nengine: { displacement: '4.9 L' }\n"],
  ['format: 1\nengine:\n  redline: 5500 rmp # gauge\n', 'format: 1\nengine:\n  redline: 5500 rpm # gauge\n'],
  ['format: 1\nfuel-system: { tank: { vent: yes } }\n', 'format: 1\nfuel-system: { tank: { vent: true } }\n'],
];

describe('the repair of a problem', () => {
  it.each(repairs)('%j becomes %j', (before, after) => {
    const sheet = read(before);
    const [fix] = sheet.problems.flatMap((problem) => fixesThatHold(sheet, problem, read));
    const text = applyEdits(before, fix?.edits ?? []);
    expect(text).toBe(after);
    expect(read(text).problems).toEqual([]);
  });
});

describe('a sheet beyond reason', () => {
  const bomb = ['x-a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1]']
    .concat(
      [...'bcdefghi'].map((name, index) => {
        const before = 'abcdefgh'[index];
        return `x-${name}: &${name} [${Array(9).fill(`*${before}`).join(', ')}]`;
      }),
    )
    .join('\n');

  it.each([
    ['aliases of aliases', bomb, 'Aliases unfold this sheet beyond any reasonable size; write the values out instead.'],
    ['nested brackets', `format: 1\nx-a: ${'['.repeat(3000)}`, 'This sheet nests deeper than any build sheet does.'],
    [
      'nested fields',
      Array.from({ length: 300 }, (_, level) => `${' '.repeat(level)}a:`).join('\n'),
      'This sheet nests deeper than any build sheet does.',
    ],
  ])('is refused in one sentence: %s', (_, text, message) => {
    const { problems, broken, values } = read(text);
    expect(problems.map((problem) => problem.message)).toEqual([message]);
    expect(problems[0]?.range).toEqual({ start: 0, end: text.indexOf('\n') });
    expect({ broken, values }).toEqual({ broken: true, values: {} });
  });

  it.each([
    [
      'more than 1 MB',
      `title: ${'x'.repeat(1_000_000)}\n`,
      'This text is longer than 1 MB; no build sheet is. It is not read.',
    ],
    ['a hundred thousand brackets', '['.repeat(100_000), 'This sheet nests deeper than any build sheet does.'],
    ['a hundred thousand dashes', '- '.repeat(100_000), 'This sheet nests deeper than any build sheet does.'],
  ])('is not even parsed: %s', (_, text, message) => {
    expect(read(text).problems.map((problem) => problem.message)).toEqual([message]);
  });

  it.each([
    ['20,000 unknown fields', Array.from({ length: 20_000 }, (_, index) => `k${index}: 1`).join('\n')],
    [
      '20,000 unknown fields in braces',
      `engine: { ${Array.from({ length: 20_000 }, (_, index) => `k${index}: 1`).join(', ')} }`,
    ],
    [
      '10,000 anchors',
      Array.from({ length: 10_000 }, (_, index) => `x-${index}: &a${index} { b: 1 }\nx-b${index}: *a${index}`).join(
        '\n',
      ),
    ],
    ['10,000 lines that are no fields', Array.from({ length: 10_000 }, (_, index) => `k${index}`).join('\n')],
    [
      '10,000 broken lines',
      `format: 1\nengine:\n${Array.from({ length: 10_000 }, (_, index) => `  - k${index}:v\n   a`).join('\n')}`,
    ],
    ['one long value', `format: 1\nengine: ${'y'.repeat(500_000)}\n`],
    ['one long field', `format: 1\n${'y'.repeat(500_000)}: 1\n`],
    ['one long quantity', `format: 1\nengine: { displacement: ${'1.'.repeat(100_000)} }\n`],
  ])('is told in a few short messages: %s', (_, text) => {
    const { problems } = read(text);
    expect(problems.length).toBeLessThanOrEqual(100);
    for (const { message, fixes } of problems) {
      expect(message.length).toBeLessThan(400);
      for (const { title } of fixes) expect(title.length).toBeLessThan(200);
    }
  });

  it('tells a hundred problems at most, and uses none of the wrong values', () => {
    const items = Array.from({ length: 3000 }, (_, index) => `  - ${index}`).join('\n');
    const { problems, values } = read(`format: 1\nnotes:\n${items}\n`);
    expect(problems).toHaveLength(100);
    expect(values.notes ?? []).toEqual([]);
  });

  it('takes a long list as it is', () => {
    const items = Array.from({ length: 12_000 }, (_, index) => `  - { note: "${index}" }`).join('\n');
    const { problems, values } = read(`format: 1\nnotes:\n${items}\n`);
    expect(problems).toEqual([]);
    expect(values.notes).toHaveLength(12_000);
  });
});

describe('the values of a sheet', () => {
  it('are those that could be read, without the wrong ones', () => {
    const { values } = read(
      'format: 1\nengine: { cylinders: 80, displacement: 4.9 L, redline: 5500 psi, idle: 750 rpm, bore: 4 in }\n',
    );
    expect(Object.keys(values.engine ?? {})).toEqual(['displacement', 'idle']);
  });

  it('have no field that stands for a prototype', () => {
    const { values } = read('format: 1\n__proto__: { a: 1 }\nengine: { __proto__: { cylinders: 4 }, cylinders: 8 }\n');
    expect(Object.getPrototypeOf(values)).toBe(Object.prototype);
    expect(Object.getPrototypeOf(values.engine)).toBe(Object.prototype);
    expect(values.engine?.cylinders).toBe(8);
  });

  it.each(['[60 psi, 225 psi]', '{ 60 psi: 225 L/h }', ':[60 psi, 225 L/h]', '225 L/h'])(
    'leave out a whole table of which one part is wrong: %s',
    (point) => {
      const { values } = read(
        `format: 1\nfuel-system: { pump: { flow-at: [[40 psi, 270 L/h], ${point}, [75 psi, 180 L/h]] } }\n`,
      );
      expect(values['fuel-system']?.pump).toEqual({});
    },
  );
});

describe('a repair of a problem', () => {
  it('is offered only where the text with it can be read and what it writes is right', () => {
    const sheet = read('format: 1\nengine: { cylinders: 80 }\n');
    const fixes = ['8', '81', '{', '8 }\n- a'].map((text) => ({
      title: text,
      edits: [{ start: 31, end: 33, text }],
      preferred: false,
    }));
    const problem = { ...sheet.problems[0], fixes } as Problem;
    expect(fixesThatHold(sheet, problem, read).map(({ title }) => title)).toEqual(['8']);
  });

  it.each(['FUEL-SYSTEM: {}\n', '~: 1\nTITLE: x\n'])('does not hide another mistake at its place: %j', (text) => {
    const sheet = read(text);
    expect(sheet.problems.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['sheet/missing-field', 'sheet/unknown-field']),
    );
  });
});

describe('an empty field', () => {
  it.each([
    'engine:',
    'engine: ~',
    'engine: { idle: }',
    'fuel-system:\n  mechanical-pump:',
    'stages:\n  - name:\n    power:',
  ])('is not known yet, and no mistake: %j', (fields) => {
    expect(read(`format: 1\n${fields}\n`).problems).toEqual([]);
  });

  it('is counted', () => {
    const { unknown, values } = read(
      'format: 1\nengine:\nfuel-system: { mechanical-pump:, pump: { flow-at: ~ } }\nx-own:\n',
    );
    expect(unknown.map(pathText)).toEqual(['engine', 'fuel-system.mechanical-pump', 'fuel-system.pump.flow-at']);
    expect(values).toEqual({ format: 1, 'fuel-system': { pump: {} } });
  });

  it('is valid wherever a field is not required', () => {
    const emptied = (schema: FieldSchema, path: Path): string[] => {
      const { properties = {}, required = [] } = resolve(schema);
      return Object.entries(properties).flatMap(([name, field]) => {
        const here = [...path, name];
        const own = required.includes(name)
          ? []
          : [here.map((step, level) => `${' '.repeat(level)}${step}:`).join('\n')];
        return here.length > 4 || path[0] === 'stages' ? own : [...own, ...emptied(field, here)];
      });
    };
    for (const text of emptied(root, [])) expect(read(`format: 1\n${text}\n`).problems).toEqual([]);
  });
});

describe('a field written twice', () => {
  it('counts as it stands last, and is not used where that is wrong', () => {
    const { values } = read('stages:\n  -\nformat: 1\nstages:\n  - { power: 5 hp, induction: naturally }\n');
    expect(values.stages).toMatchObject([{ power: { text: '5 hp' } }]);
    expect(values.stages?.[0]).not.toHaveProperty('induction');
  });
});
