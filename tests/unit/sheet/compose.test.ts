import { describe, expect, it } from 'vitest';
import { type Entry, entryAt, pathText } from '../../../server/src/sheet/entry.ts';
import { entryOf, nearestEntry } from '../../../server/src/sheet/read.ts';
import { read, unmarked } from './marked.ts';

/** Every entry with a value, as `path = text of the value`, `~` before what is taken over by a merge. */
function outline(text: string): string[] {
  const lines: string[] = [];
  const walk = (entry: Entry) => {
    const { path, kind, value, inherited, children } = entry;
    if (kind === 'scalar')
      lines.push(`${inherited ? '~' : ''}${pathText(path)} = ${text.slice(value.start, value.end)}`);
    if (kind === 'empty') lines.push(`${pathText(path)} is empty`);
    children.forEach(walk);
  };
  walk(read(text).root);
  return lines;
}

describe('the entries of a sheet', () => {
  it('have the place of their value', () => {
    expect(outline('format: 1\nengine: { cylinders: 8, idle: "750 rpm" }\nstages:\n  - name: a\n  - power:\n')).toEqual(
      [
        'format = 1',
        'engine.cylinders = 8',
        'engine.idle = "750 rpm"',
        'stages[0].name = a',
        'stages[1].power is empty',
      ],
    );
  });

  it('have the place of the anchored text behind an alias, the alias its own', () => {
    const text = 'x-e: &e { cylinders: 8 }\nengine: *e\n';
    expect(outline(text)).toEqual(['x-e.cylinders = 8', 'engine.cylinders = 8']);
    const engine = entryOf(read(text), ['engine']);
    expect(text.slice(engine?.value.start, engine?.value.end)).toBe('*e');
    expect(entryOf(read(text), ['engine', 'cylinders'])?.value).toEqual(
      entryOf(read(text), ['x-e', 'cylinders'])?.value,
    );
  });

  it('take over merged fields but for their own, the nearer merge before the farther', () => {
    const text = [
      'x-a: &a { cylinders: 4, idle: 700 rpm, redline: 5000 rpm }',
      'x-b: &b { idle: 800 rpm, redline: 6000 rpm }',
      'engine:',
      '  <<: [*b, *a]',
      '  redline: 7000 rpm',
    ].join('\n');
    expect(outline(text).slice(-3).toSorted()).toEqual([
      'engine.redline = 7000 rpm',
      '~engine.cylinders = 4',
      '~engine.idle = 800 rpm',
    ]);
    const { values, problems } = read(`format: 1\n${text}`);
    expect(problems).toEqual([]);
    expect(values.engine).toMatchObject({ cylinders: 4, idle: { text: '800 rpm' }, redline: { text: '7000 rpm' } });
  });

  it('follow a merge inside what is merged', () => {
    const text = 'x-a: &a { cylinders: 8 }\nx-b: &b { <<: *a, idle: 700 rpm }\nengine: { <<: *b }\n';
    expect(read(`format: 1\n${text}`).values.engine).toMatchObject({ cylinders: 8, idle: { text: '700 rpm' } });
  });

  it('follow the last anchor of a name above the alias', () => {
    const text =
      'x-a: &e { cylinders: 4 }\nengine: *e\nx-b: &e { cylinders: 8 }\nstages: [{ changes: { engine: *e } }]\n';
    const { values } = read(`format: 1\n${text}`);
    expect(values.engine?.cylinders).toBe(4);
    expect(values.stages?.[0]?.changes?.engine?.cylinders).toBe(8);
  });

  it('end where an alias stands inside what it stands for', () => {
    expect(outline('x-a: &a [1, *a]\nx-b: &b { <<: *b, c: 1 }\n')).toEqual([
      'x-a[0] = 1',
      'x-a[1] is empty',
      'x-b.c = 1',
    ]);
  });

  it('have what is wrong in an anchored text told once', () => {
    const text = 'format: 1\nx-a: &a { a: *nowhere }\nx-b: [*a, *a]\nx-c: { <<: *a }\n';
    expect(read(text).problems.map(({ message }) => message)).toEqual(['No anchor of that name stands above.']);
  });

  it('are known by the schema where they are merged and where they are aliased', () => {
    const text = 'format: 1\nx-a: &a { displacment: 1 L }\nengine: *a\n';
    const [problem] = read(text).problems;
    expect(problem?.message).toBe('"displacment" is not a field of "engine"; did you mean "displacement"?');
    expect(text.slice(problem?.range.start, problem?.range.end)).toBe('displacment');
  });

  it('are many where a thousand aliases stand, and fast', () => {
    const items = Array.from({ length: 2000 }, () => '  - *n').join('\n');
    const { problems, values } = read(`format: 1\nx-n: &n { note: dry }\nnotes:\n${items}\n`);
    expect(problems).toEqual([]);
    expect(values.notes).toHaveLength(2000);
  });
});

describe('the entry at a place', () => {
  it.each([
    ['for«»mat: 1\n', 'format'],
    ['format: «»1\n', 'format'],
    ['format: 1«»\n', 'format'],
    ['format: 1\n«»\n', ''],
    ['engine: { cylinders: 8, id«»le: 750 rpm }\n', 'engine.idle'],
    ['engine: { cylinders: 8«», idle: 750 rpm }\n', 'engine.cylinders'],
    ['engine: {«» cylinders: 8 }\n', 'engine'],
    ['stages:\n  - name: a\n    power: «»5 hp\n', 'stages[0].power'],
    ['x-e: &e { cylinders: «»8 }\nengine: *e\n', 'x-e.cylinders'],
    ['x-e: &e { cylinders: 8 }\nengine: *«»e\n', 'engine'],
  ])('%j is %s', (marked, path) => {
    const { text, ranges } = unmarked(marked);
    expect(pathText(entryAt(read(text).root, ranges[0]?.start ?? 0).path)).toBe(path);
  });

  it('nearest to a path is the section around it', () => {
    const sheet = read('engine: { intake: { pads: 1 } }\nstages: [{ name: a }]\n');
    const near = (...path: (string | number)[]) => pathText(nearestEntry(sheet, path).path);
    expect(near('engine', 'intake', 'flange')).toBe('engine.intake');
    expect(near('engine', 'fuel', 'grade')).toBe('engine');
    expect(near('stages', 3, 'power')).toBe('stages');
    expect(near('stages', 'name')).toBe('stages');
    expect(near('fuel')).toBe('');
  });
});
