import { describe, expect, it } from 'vitest';
import { completionsAt } from '../../../server/src/features/completion.ts';
import { child, type FieldSchema, houseRoot, root } from '../../../server/src/sheet/schema.ts';
import { read } from '../sheet/marked.ts';
import { atCursor, labels, proposals, taken } from './cursor.ts';

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
    ['in braces over several lines', 'fuel-system: {\n  tank: {},\n  ‸\n}\n', ['pump', 'lift-pump']],
    ['of an item', 'stages:\n  - ‸\n', ['name', 'power']],
    ['of an item at the margin', 'stages:\n- ‸\n', ['name', 'power']],
    ['of an item with fields', 'stages:\n  - name: a\n    ‸\n', ['power', 'induction']],
    ['of an item in braces', 'stages:\n  - { name: a, ‸ }\n', ['power', 'induction']],
    ['of a stage’s changes', 'stages:\n  - name: a\n    changes:\n      ‸\n', ['engine', 'fuel']],
    ['with lines that end with CRLF', 'engine:\r\n  cylinders: 8\r\n  ‸\r\n', ['displacement', 'compression-ratio']],
    ['after a byte order mark', '\uFEFF‸', ['format', 'title']],
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
    ['words that are no key', 'format: 1\nengine size‸\n'],
    ['a key whose colon has no blank behind it yet', 'engine:\n  displacement:‸\n'],
    ['a field of the team’s own', 'x-own: { ‸ }\n'],
    ['a field that does not exist', 'nonsense: { ‸ }\n'],
  ])('is silent in %s', (_, marked) => {
    expect(labels(marked)).toEqual([]);
  });

  it('keeps the order of the schema', () => {
    expect(labels('fuel: { octane: 91, ‸ }\n')).toEqual(
      Object.keys(child(root, 'fuel')?.properties ?? {}).filter((name) => name !== 'octane'),
    );
  });

  it('tells by examples what a field takes', () => {
    const about = (name: string) => proposals('engine:\n  ‸\n').find(({ label }) => label === name)?.documentation;
    expect(about('displacement')).toMatch(/ Such as .*\d.*\.$/);
    expect(about('intake')).not.toContain('Such as');
    const choices = proposals('fuel:\n  ‸\n').find(({ label }) => label === 'grade')?.documentation;
    expect(choices).toMatch(/ One of `gasoline`, .*`methanol`\.$/);
  });
});

describe('a completed field is left empty', () => {
  it.each([
    ['a quantity', 'engine:\n  dis‸\n', 'displacement', 'engine:\n  displacement: ‸\n'],
    ['a text', '‸', 'title', 'title: ‸'],
    ['a choice', 'fuel-system:\n  pump:\n    ‸\n', 'placement', 'fuel-system:\n  pump:\n    placement: ‸\n'],
    ['a truth', 'fuel-system: { tank: { ‸ } }\n', 'vent', 'fuel-system: { tank: { vent: ‸ } }\n'],
    ['one whose colon stands', 'engine:\n  ‸: 4.9 L\n', 'displacement', 'engine:\n  displacement‸: 4.9 L\n'],
    ['a section', 'format: 1\n‸\n', 'engine', 'format: 1\nengine:\n  ‸\n'],
    ['a section in a section', 'throttle-body:\n  ‸\n', 'injectors', 'throttle-body:\n  injectors:\n    ‸\n'],
    [
      'a section in changes',
      'stages:\n  - name: a\n    changes:\n      ‸\n',
      'fuel-system',
      'stages:\n  - name: a\n    changes:\n      fuel-system:\n        ‸\n',
    ],
    ['changes behind a dash', 'stages:\n  - ‸\n', 'changes', 'stages:\n  - changes:\n      ‸\n'],
    ['a section where the sheet indents by four', 'site:\n    ‸\n', 'altitude', 'site:\n    altitude: ‸\n'],
    [
      'a section in a section that indents by four',
      'engine:\n    cylinders: 8\n    ‸\n',
      'intake',
      'engine:\n    cylinders: 8\n    intake:\n        ‸\n',
    ],
    ['a section after a byte order mark', '\uFEFF‸', 'engine', '\uFEFFengine:\n  ‸'],
    ['a section in braces', 'fuel-system: { ‸ }\n', 'pump', 'fuel-system: { pump: { ‸ } }\n'],
    ['a section in braces over lines', 'fuel-system: {\n  ‸\n}\n', 'pump', 'fuel-system: {\n  pump: { ‸ }\n}\n'],
    ['a list of sections', '‸', 'stages', 'stages:\n  - ‸'],
    ['a list of choices', 'vacuum-reference:\n  ‸\n', 'shared-with', 'vacuum-reference:\n  shared-with: [‸]\n'],
    ['a table', 'fuel-system: { pump: { ‸ } }\n', 'flow-at', 'fuel-system: { pump: { flow-at: [[‸]] } }\n'],
  ])('%s', (_, marked, name, after) => {
    expect(taken(marked, name)).toBe(after);
  });

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

  it.each(sections(root, []))('and can be read: every field in $path', ({ marked }) => {
    const names = labels(marked);
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) {
      const { problems } = read(taken(marked, name).replace('‸', ''));
      const wrong = problems.filter(({ message }) => !/takes \d+ to|takes at least|takes a pair/.test(message));
      expect(wrong.map(({ message }) => `${name}: ${message}`)).toEqual([]);
    }
  });
});

describe('completion of house rules', () => {
  it('offers what they may set, rules and severities', () => {
    expect(labels('‸', houseRoot)).toEqual(['limits', 'rules', 'units', 'octane', 'fuel', 'catalogs', 'currency']);
    expect(labels('rules:\n  ‸\n', houseRoot)).toContain('ignition/contact-points');
    expect(labels('rules:\n  ignition/contact-points: { severity: ‸ }\n', houseRoot)).toContain('warning');
    expect(taken('rules:\n  ignition/con‸\n', 'ignition/contact-points', houseRoot)).toBe(
      'rules:\n  ignition/contact-points:\n    ‸\n',
    );
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
    const { proposals: found, replace } = completionsAt(text, offset, root);
    expect(found[0]?.label).toBe(first);
    expect(replace).toEqual({ start: offset, end: offset });
  });
});
