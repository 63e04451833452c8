import { describe, expect, it } from 'vitest';
import { completionsAt, type Proposal } from '../../../server/src/features/completion.ts';
import { child, type FieldSchema, houseRoot, root } from '../../../server/src/sheet/schema.ts';
import { read } from '../sheet/marked.ts';
import { atCursor } from './cursor.ts';

function proposals(marked: string, schema = root): Proposal[] {
  const { text, offset } = atCursor(marked);
  return completionsAt(text, offset, schema);
}

function labels(marked: string, schema = root): string[] {
  return proposals(marked, schema).map(({ label }) => label);
}

/** The text once a proposal is taken: of a choice the first, of an example the example. */
function taken(text: string, { insert, replace }: Proposal): string {
  const written = insert
    .replaceAll(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
    .replaceAll(/\$\{\d+:((?:\\\}|[^}])*)\}/g, '$1')
    .replaceAll(/\$\d+/g, '')
    .replaceAll(/\\([$}])/g, '$1');
  return text.slice(0, replace.start) + written + text.slice(replace.end);
}

const PLACEMENTS = ['in-tank', 'tank-module', 'surge-tank', 'external'];

describe('completion of fields', () => {
  it.each([
    ['in an empty sheet', '‸', ['format', 'title']],
    ['at the end', 'format: 1\n‸\n', ['title', 'site']],
    ['in the middle of a word', 'format: 1\nengi‸\n', ['title', 'site']],
    ['of a section', 'format: 1\nengine:\n  ‸\n', ['cylinders', 'displacement']],
    ['after other fields', 'engine:\n  cylinders: 8\n  ‸\n', ['displacement', 'compression-ratio']],
    ['before other fields', 'engine:\n  ‸\n  cylinders: 8\n', ['displacement', 'compression-ratio']],
    ['in braces', 'engine: { ‸ }\n', ['cylinders', 'displacement']],
    ['in braces after a comma', 'engine: { cylinders: 8, ‸ }\n', ['displacement', 'compression-ratio']],
    ['in braces that are still open', 'engine: {‸\n', ['cylinders', 'displacement']],
    ['in braces over several lines', 'fuel-system: {\n  tank: {},\n  ‸\n}\n', ['pump', 'mechanical-pump']],
    ['of an item', 'stages:\n  - ‸\n', ['name', 'power']],
    ['of an item with fields', 'stages:\n  - name: a\n    ‸\n', ['power', 'induction']],
    ['of an item in braces', 'stages:\n  - { name: a, ‸ }\n', ['power', 'induction']],
    ['of a stage’s changes', 'stages:\n  - name: a\n    changes:\n      ‸\n', ['engine', 'fuel']],
    ['with lines that end with CRLF', 'engine:\r\n  cylinders: 8\r\n  ‸\r\n', ['displacement', 'compression-ratio']],
    [
      'beside merged fields',
      'x-e: &e { cylinders: 8 }\nengine:\n  <<: *e\n  ‸\n',
      ['displacement', 'compression-ratio'],
    ],
    ['whose value stands already', 'engine:\n  displ‸acement: 4.9 L\n', ['cylinders', 'displacement']],
  ])('%s', (_, marked, first) => {
    expect(labels(marked).slice(0, 2)).toEqual(first);
  });

  it.each([
    ['a comment', 'format: 1\n# fu‸el\n'],
    ['a comment after a value', 'title: a # ‸\n'],
    ['a block of text', 'notes:\n  - note: |\n      text ‸\n'],
    ['a quoted text', 'title: "a, ‸b"\n'],
    ['a field of the team’s own', 'x-own: { ‸ }\n'],
    ['a field that does not exist', 'nonsense: { ‸ }\n'],
  ])('is silent in %s', (_, marked) => {
    expect(labels(marked)).toEqual([]);
  });

  it('writes the colon only where there is none', () => {
    const named = (marked: string) => proposals(marked).find(({ label }) => label === 'displacement')?.insert;
    expect(named('engine:\n  ‸: 4.9 L\n')).toBe('displacement');
    expect(named('engine:\n  ‸\n')).toMatch(/^displacement: .*4\.9 L\}$/);
  });

  it('begins a section in lines or in braces as the text around does', () => {
    const pump = (marked: string) => proposals(marked).find(({ label }) => label === 'pump')?.insert;
    expect(pump('fuel-system:\n  ‸\n')).toBe('pump:\n    $1');
    expect(pump('fuel-system: { ‸ }\n')).toBe('pump: { $1 }');
    expect(pump('fuel-system: {\n  ‸\n}\n')).toBe('pump: { $1 }');
  });
});

describe('completion of values', () => {
  it.each([
    ['a choice', 'fuel-system:\n  pump:\n    placement: ‸\n', PLACEMENTS],
    ['a choice that is begun', 'fuel-system:\n  pump:\n    placement: in‸\n', PLACEMENTS],
    ['a choice in braces', 'fuel-system: { pump: { placement: ‸ } }\n', PLACEMENTS],
    ['a choice in quotes', 'fuel-system: { pump: { placement: "in‸" } }\n', PLACEMENTS],
    ['a choice of an item', 'stages:\n  - { induction: ‸ }\n', ['natural', 'roots', 'centrifugal', 'turbo']],
    ['a truth', 'fuel-system: { tank: { vent: ‸ } }\n', ['true', 'false']],
    ['a quantity', 'engine: { displacement: ‸ }\n', ['4.9 L', '299 in^3']],
    ['a constant', 'format: ‸\n', ['1']],
    [
      'an item of a list in brackets',
      'vacuum-reference: { shared-with: [pcv, dis‸] }\n',
      ['brake-booster', 'pcv', 'transmission', 'distributor', 'regulator'],
    ],
    [
      'an item of a list in lines',
      'vacuum-reference:\n  shared-with:\n    - ‸\n',
      ['brake-booster', 'pcv', 'transmission', 'distributor', 'regulator'],
    ],
    ['a place in a pair', 'fuel-system: { pump: { flow-at: [[40 psi, ‸]] } }\n', ['270 L/h']],
  ])('%s', (_, marked, expected) => {
    expect(labels(marked)).toEqual(expected);
  });

  it.each([
    ['4.9‸', '4.9 L'],
    ['4.9 ‸', '4.9 L'],
    ['4.9 in^3‸', '4.9 L'],
    ['4 9/10 ‸', '4 9/10 L'],
    ['4.9 +/- 0.1 ‸', '4.9 +/- 0.1 L'],
    ['4.9 L +/- 0.1 ‸', '4.9 L +/- 0.1 L'],
    ['4.8..5 ‸', '4.8..5 L'],
  ])('gives a number its unit: %s', (written, first) => {
    const { text, offset } = atCursor(`engine: { displacement: ${written}, cylinders: 8 } # mine\n`);
    const [proposal] = completionsAt(text, offset, root);
    expect(proposal && taken(text, proposal)).toBe(`engine: { displacement: ${first}, cylinders: 8 } # mine\n`);
  });

  it('tells by what test fluid a volume counts as a mass', () => {
    const cc = proposals('throttle-body: { injectors: { static-flow: 840 ‸ } }\n').find(({ label }) =>
      label.endsWith('cc/min'),
    );
    expect(cc?.detail).toBe('cc/min is read with a test fluid of 0.720 kg/L');
  });

  it.each([
    [
      'fuel-system: {\n  pump: { placement: in‸, quantity: 2 } }\n',
      'fuel-system: {\n  pump: { placement: in-tank, quantity: 2 } }\n',
    ],
    [
      'fuel-system: { pump: {\n  placement: in‸, quantity: 2\n} }\n',
      'fuel-system: { pump: {\n  placement: in-tank, quantity: 2\n} }\n',
    ],
    ['fuel-system:\n  pump:\n    placement: in‸ # mine\n', 'fuel-system:\n  pump:\n    placement: in-tank # mine\n'],
    [
      'fuel-system: { pump: { flow-at: [[40 p‸si, 250 L/h]] } }\n',
      'fuel-system: { pump: { flow-at: [[40 psi, 250 L/h]] } }\n',
    ],
    [
      'vacuum-reference:\n  shared-with:\n    - pcv-‸valve # mine\n',
      'vacuum-reference:\n  shared-with:\n    - brake-booster # mine\n',
    ],
  ])('replaces the value and nothing beside it: %j', (marked, after) => {
    const { text, offset } = atCursor(marked);
    const [proposal] = completionsAt(text, offset, root);
    expect(proposal && taken(text, proposal)).toBe(after);
  });

  it('names rules where they are silenced', () => {
    expect(labels('silence:\n  - { rule: ‸ }\n')).toContain('ignition/contact-points');
  });
});

describe('completion of house rules', () => {
  it('offers what they may set, rules and severities', () => {
    expect(labels('‸', houseRoot)).toEqual(['limits', 'rules', 'units', 'fuel']);
    expect(labels('rules:\n  ‸\n', houseRoot)).toContain('ignition/contact-points');
    expect(labels('rules:\n  ignition/contact-points: { severity: ‸ }\n', houseRoot)).toContain('warning');
  });
});

describe('completion of a very long sheet', () => {
  const note = (index: number) => `  - { date: 2031-01-01, note: "step ${index}: dry" }\n`;
  const notes = Array.from({ length: 6000 }, (_, index) => note(index)).join('');

  it.each([
    ['after the long list', `format: 1\nnotes:\n${notes}engine:\n  cylinders: 8\n  ‸\n`, 'displacement'],
    ['before the long list', `format: 1\nengine:\n  cylinders: 8\n  ‸\nnotes:\n${notes}`, 'displacement'],
    ['in an item of it', `format: 1\nnotes:\n${notes}  - ‸\n${notes}`, 'date'],
    ['in a field of an item of it', `format: 1\nnotes:\n${notes}  - date: 2031-01-01\n    ‸\n${notes}`, 'note'],
    ['at its top', `format: 1\nnotes:\n${notes}‸\n`, 'title'],
    ['with CRLF', `format: 1\nnotes:\n${notes}engine:\n  cylinders: 8\n  ‸\n`.replaceAll('\n', '\r\n'), 'displacement'],
  ])('is as anywhere: %s', (_, marked, first) => {
    const { text, offset } = atCursor(marked);
    const [proposal] = completionsAt(text, offset, root);
    expect(proposal?.label).toBe(first);
    expect(proposal?.replace).toEqual({ start: offset, end: offset });
  });
});

describe('every field that completion writes', () => {
  /** Every section of a sheet by its path, with a text that has a cursor in it, in lines and in braces. */
  function sections(schema: FieldSchema, path: string[]): { path: string; marked: string }[] {
    const names = Object.keys(schema.properties ?? {});
    const lines = path.map((name, level) => `${'  '.repeat(level)}${name}:\n`).join('');
    const braces = path.map((name) => `${name}: { `).join('');
    const own = [
      { path: path.join('.'), marked: `format: 1\n${lines}${'  '.repeat(path.length)}‸\n` },
      { path: `${path.join('.')} in braces`, marked: `format: 1\n${braces}‸${' }'.repeat(path.length)}\n` },
    ];
    const inner = names.flatMap((name) => {
      const found = child(schema, name);
      return found?.type === 'object' ? sections(found, [...path, name]) : [];
    });
    return path.length ? [...own, ...inner] : inner;
  }

  it.each(sections(root, []))('in $path is a field that reads', ({ marked }) => {
    const { text, offset } = atCursor(marked);
    const found = completionsAt(text, offset, root);
    expect(found.length).toBeGreaterThan(0);
    for (const proposal of found) {
      const { problems } = read(taken(text, proposal));
      const wrong = problems.filter(({ message }) => !/is empty|takes \d+ to|takes at least/.test(message));
      expect(wrong.map(({ message }) => `${proposal.insert}: ${message}`)).toEqual([]);
    }
  });
});
