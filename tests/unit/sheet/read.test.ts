import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { read, unmarked, withMarks } from './marked.ts';

/** A sheet with what is wrong between guillemets, then for each place code and message. */
type Case = [sheet: string, ...told: [code: string, message: string][]];

const unknownFields: Case[] = [
  [
    'format: 1\nengine: { «displacment»: 4.9 L }\n',
    ['sheet/unknown-field', '`displacment` is not a field of `engine`; did you mean `displacement`?'],
  ],
  ['format: 1\nengine: { «zzz»: 4.9 L }\n', ['sheet/unknown-field', '`zzz` is not a field of `engine`.']],
  ['format: 1\n«foo»: 1\n', ['sheet/unknown-field', '`foo` is not a field of a build sheet.']],
  ['format: 1\n«null»: 1\n', ['sheet/unknown-field', '`null` is not a field of a build sheet.']],
  ['format: 1\n«: 1»\n', ['sheet/unknown-field', '`null` is not a field of a build sheet.']],
  [
    'format: 1\nengine: { «__proto__»: 5, «constructor»: 4 }\n',
    ['sheet/unknown-field', '`__proto__` is not a field of `engine`.'],
    ['sheet/unknown-field', '`constructor` is not a field of `engine`.'],
  ],
  [
    'format: 1\nengine: { «cylinders 8» }\n',
    ['sheet/unknown-field', '`cylinders 8` is not a field of `engine`; write `cylinders: 8`.'],
  ],
  [
    'format: 1\nnotes:\n  - { «nte»: dry }\n',
    ['sheet/unknown-field', '`nte` is not a field of an item of `notes`; did you mean `note`?'],
  ],
  [
    'format: 1\nstages:\n  - changes:\n      engine: { «displacment»: 4 L }\n',
    ['sheet/unknown-field', '`displacment` is not a field of `engine`; did you mean `displacement`?'],
  ],
  ['format: 1\nx-own: { anything: [1, { b: 2 }] }\n'],
];

const missingFields: Case[] = [
  ['«title»: x\n', ['sheet/missing-field', 'This sheet needs a field `format`.']],
  ['# a comment\n\n«title»: x\n', ['sheet/missing-field', 'This sheet needs a field `format`.']],
  ['«»', ['sheet/missing-field', 'This sheet needs a field `format`.']],
  ['«FORMAT»: 1\n', ['sheet/unknown-field', '`FORMAT` is not a field of a build sheet; did you mean `format`?']],
  ['format: 1\nnotes:\n  - «date»: 2026-01-01\n', ['sheet/missing-field', 'An item of `notes` needs a field `note`.']],
  [
    'format: 1\nsilence:\n  - { «rule»: a/b }\n',
    ['sheet/missing-field', 'An item of `silence` needs a field `reason`.'],
  ],
];

const wrongValues: Case[] = [
  [
    'format: 1\nfuel-system: { pump: { placement: «intank» } }\n',
    [
      'sheet/unknown-choice',
      '`intank` is not a choice for `placement`; did you mean `in-tank`? Choices: `in-tank`, `tank-module`, `surge-tank`, `external`.',
    ],
  ],
  [
    'format: 1\nfuel-system: { pump: { placement: «shed» } }\n',
    [
      'sheet/unknown-choice',
      '`shed` is not a choice for `placement`. Choices: `in-tank`, `tank-module`, `surge-tank`, `external`.',
    ],
  ],
  [
    'format: 1\nvacuum-reference: { shared-with: [pcv, «brakes»] }\n',
    [
      'sheet/unknown-choice',
      '`brakes` is not a choice for an item of `shared-with`. Choices: `brake-booster`, `pcv`, `transmission`, `distributor`, `regulator`.',
    ],
  ],
  [
    'format: 1\nfuel-system: { tank: { vent: «yes» } }\n',
    ['sheet/wrong-type', '`vent` takes `true` or `false`; write `true`.'],
  ],
  [
    'format: 1\nfuel-system: { tank: { vent: «"no"» } }\n',
    ['sheet/wrong-type', '`vent` takes `true` or `false`; write `false`.'],
  ],
  ['format: 1\nfuel-system: { tank: { vent: «maybe» } }\n', ['sheet/wrong-type', '`vent` takes `true` or `false`.']],
  [
    'format: 1\nengine: { cylinders: «"8"» }\n',
    ['sheet/wrong-type', '`cylinders` takes a whole number, such as `8`; write `8`.'],
  ],
  ['format: 1\nengine: { cylinders: «8.5» }\n', ['sheet/wrong-type', '`cylinders` takes a whole number, such as `8`.']],
  [
    'format: 1\nengine: { cylinders: «30» }\n',
    ['sheet/out-of-range', '`30` is out of range: `cylinders` runs from 1 to 16.'],
  ],
  [
    'format: 1\nengine: { displacement: «400 L» }\n',
    ['sheet/out-of-range', '`400 L` is out of range: displacement runs from 0.2 L to 20 L.'],
  ],
  [
    'format: 1\nstages: [{ power: «350 +/- 400 hp» }]\n',
    ['sheet/out-of-range', '`350 +/- 400 hp` is out of range: power runs from 5 hp to 5000 hp.'],
  ],
  [
    'format: 1\nengine: { «displacement»: [4.9 L] }\n',
    ['sheet/wrong-type', '`displacement` takes a quantity of volume, such as `4.9 L`.'],
  ],
  [
    'format: 1\nengine: «5»\n',
    ['sheet/wrong-type', '`engine` takes fields of its own, such as `cylinders`, `displacement`, `compression-ratio`.'],
  ],
  [
    'format: 1\n«engine»:\n',
    [
      'sheet/wrong-type',
      '`engine` is empty; it takes fields of its own, such as `cylinders`, `displacement`, `compression-ratio`.',
    ],
  ],
  [
    'format: 1\nfuel: «gasoline-e10»\n',
    [
      'sheet/wrong-type',
      '`fuel` takes fields of its own, such as `grade`, `ethanol-share`, `vapor-pressure`; write `{ grade: gasoline-e10 }`.',
    ],
  ],
  [
    'format: 1\ntitle: «302»\n',
    ['sheet/wrong-type', '`title` takes a text, such as `Quarry wagon, 4.9 liter`; write `"302"`.'],
  ],
  [
    'format: 1\ntitle: «""»\n',
    ['sheet/wrong-type', '`title` is empty; it takes a text, such as `Quarry wagon, 4.9 liter`.'],
  ],
  ['format: 1\nstages: «[]»\n', ['sheet/wrong-type', '`stages` takes 1 to 24 items.']],
  ['format: 1\n«stages»: { name: a }\n', ['sheet/wrong-type', '`stages` takes a list.']],
  [
    'format: 1\nfuel-system: { pump: { flow-at: [[40 psi, 270 L/h], «[60 psi]»] } }\n',
    ['sheet/wrong-type', 'An item of `flow-at` takes a pair of pressure and flow, such as `[40 psi, 270 L/h]`.'],
  ],
  ['format: «2»\n', ['sheet/old-format', 'This tool reads format 1; `2` is another version.']],
  ['«- a»\n- b\n', ['sheet/wrong-type', 'A build sheet takes fields of its own, such as `format`, `title`, `site`.']],
];

const quantities: Case[] = [
  [
    'format: 1\nengine: { displacement: «4.9» }\n',
    ['sheet/quantity', '`4.9` needs a unit of volume: `L`, `in^3`, `cm^3`, `m^3`.'],
  ],
  [
    "format: 1\nengine: { displacement: '«4.9»' }\n",
    ['sheet/quantity', '`4.9` needs a unit of volume: `L`, `in^3`, `cm^3`, `m^3`.'],
  ],
  [
    'format: 1\nengine: { displacement: "4.9 «psi»" }\n',
    ['sheet/quantity', '`psi` is a unit of pressure; this field takes a unit of volume: `L`, `in^3`, `cm^3`, `m^3`.'],
  ],
  [
    'format: 1\nengine: { displacement: «"4.9\\u0020psi"» }\n',
    ['sheet/quantity', '`psi` is a unit of pressure; this field takes a unit of volume: `L`, `in^3`, `cm^3`, `m^3`.'],
  ],
  [
    'format: 1\nengine:\n  displacement: «|»\n    4.9 psi\n',
    ['sheet/quantity', '`psi` is a unit of pressure; this field takes a unit of volume: `L`, `in^3`, `cm^3`, `m^3`.'],
  ],
  [
    'format: 1\nengine: { redline: «5,500 rpm» }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write `5500 rpm`.'],
  ],
  [
    'format: 1\nengine: { displacement: «4,9 L», cylinders: 8 }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write `4.9 L`.'],
  ],
  [
    'format: 1\nengine: { displacement: «4,900 L» }\n',
    ['sheet/quantity', 'A comma ends a value in braces; write `4.900 L`.'],
  ],
  ['format: 1\nengine: { displacement: «4,9 psi» }\n', ['sheet/quantity', 'A comma ends a value in braces.']],
  ['format: 1\nengine:\n  redline: «5,500 rpm»\n', ['sheet/quantity', 'Write thousands without commas.']],
];

const brokenYaml: Case[] = [
  ['format: 1\nengine: { cylinders: «8»\n', ['sheet/syntax', 'A closing `}` is missing.']],
  ['format: 1\nengine: { cylinders: 8 «]»\n', ['sheet/syntax', 'A closing `}` is missing.']],
  [
    'format: 1\n«engine»\n',
    ['sheet/syntax', 'Something is missing here: a `:`, a comma, a quote, or a closing bracket or brace.'],
  ],
  [
    'format: 1\nengine:\n  cylinders: 8\n «displacement»: 4 L\n',
    ['sheet/syntax', 'This line is not indented like its neighbors.'],
  ],
  ['format: 1\nengine:\n«\t»cylinders: 8\n', ['sheet/syntax', 'Indent with spaces, not tabs.']],
  ['format: 1\ntitle: "ab«c»\n', ['sheet/syntax', 'A closing quote is missing.']],
  [
    'format: 1\ntitle: «a»: b\n',
    ['sheet/syntax', 'A value with `: ` in it needs quotes; fields of its own begin on a line of their own.'],
  ],
  ['format: 1\ntitle: «@»x\n', ['sheet/syntax', 'A value cannot begin with this character; put the value in quotes.']],
  [
    'format: 1\nengine: { cylinders: 8, «cylinders»: 6 }\n',
    ['sheet/syntax', 'This field is already written above; keep one of the two.'],
  ],
  [
    'format: 1\n«---»\nformat: 1\n',
    ['sheet/syntax', 'A build sheet holds one document; move what follows `---` to a file of its own.'],
  ],
  ['format: 1\nengine: «*nowhere»\n', ['sheet/syntax', 'No anchor of that name stands above.']],
  ['format: 1\nengine:\n  <<: «5»\n', ['sheet/syntax', 'Only fields can be merged: write an alias of a mapping.']],
  ['format: 1\n? «[a, b]»\n: c\n', ['sheet/syntax', 'The name of a field is a plain word.']],
  ['format: 1\n«-» a\n', ['sheet/syntax', 'This does not fit here: look for a missing `:` or a wrong indent.']],
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
  ['title: x\n', 'format: 1\ntitle: x\n'],
  ['title: x\r\nsite: {}\r\n', 'format: 1\r\ntitle: x\r\nsite: {}\r\n'],
  ['# head\n\ntitle: x\n', '# head\n\nformat: 1\ntitle: x\n'],
  ['\ufefftitle: x\n', '\ufeffformat: 1\ntitle: x\n'],
  ['%YAML 1.2\n---\ntitle: x\n', '%YAML 1.2\n---\nformat: 1\ntitle: x\n'],
  ['  title: x\n  site: {}\n', '  format: 1\n  title: x\n  site: {}\n'],
  ['{ title: x }\n', '{ format: 1, title: x }\n'],
  ['', 'format: 1\n'],
  ['# only', '# only\nformat: 1\n'],
  ['\ufeff', '\ufeffformat: 1\n'],
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
    const fix = read(before).problems[0]?.fixes[0];
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

  it('leave out a whole table of which one part is wrong', () => {
    const { values } = read(
      'format: 1\nfuel-system: { pump: { flow-at: [[40 psi, 270 L/h], [60 psi, 225 psi], [75 psi, 180 L/h]] } }\n',
    );
    expect(values['fuel-system']?.pump).toEqual({});
  });
});

describe('a field written twice', () => {
  it('counts as it stands last, and is not used where that is wrong', () => {
    const { values } = read('stages:\n  -\nformat: 1\nstages:\n  - { power: 5 hp, induction: naturally }\n');
    expect(values.stages).toMatchObject([{ power: { text: '5 hp' } }]);
    expect(values.stages?.[0]).not.toHaveProperty('induction');
  });
});
