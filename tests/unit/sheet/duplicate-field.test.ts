import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { fixesThatHold } from '../../../server/src/sheet/fixes-that-hold.ts';
import { read } from './marked.ts';

/** The texts that mend a field written twice, by the title of the repair; preferred ones with a star. */
function mended(text: string): Record<string, string> {
  const sheet = read(text);
  const [problem] = sheet.problems.filter(({ message }) => message.includes('already written'));
  if (!problem) throw new Error('no field is written twice');
  const fixes = fixesThatHold(sheet, problem, read);
  return Object.fromEntries(
    fixes.map(({ title, edits, preferred }) => [`${title}${preferred ? '*' : ''}`, applyEdits(text, edits)]),
  );
}

describe('a field written twice', () => {
  it.each([
    ['left empty', 'silence: 1', 'silence:', undefined],
    ['of another type', 'fuel: { octane: 91 }', 'fuel: 5', undefined],
    ['another quantity', 'site: { altitude: 900 m, altitude: 300 m }', 'title: Wagon', 300],
    ['no quantity', 'site: { altitude: 900 m, altitude: high }', 'title: Wagon', undefined],
  ])('counts as what is written last: %s', (_, first, last, value) => {
    const { values } = read(`format: 1\n${first}\n${last}\n`);
    expect(values.silence).toBeUndefined();
    expect(values.fuel).toBeUndefined();
    expect(values.site?.altitude?.value).toBe(value);
  });

  it('is kept as the one or the other', () => {
    const text = 'format: 1\nengine:\n  idle: 750 rpm # as found\n  cylinders: 8\n  idle: 800 rpm\n';
    expect(mended(text)).toEqual({
      'Remove "idle: 800 rpm" in line 5': 'format: 1\nengine:\n  idle: 750 rpm # as found\n  cylinders: 8\n',
      'Remove "idle: 750 rpm" in line 3': 'format: 1\nengine:\n  # as found\n  cylinders: 8\n  idle: 800 rpm\n',
    });
  });

  it('is kept as the first where both say the same', () => {
    const text = 'format: 1\r\ntitle: Wagon\r\nfuel: {}\r\ntitle:   Wagon\r\n';
    expect(mended(text)).toEqual({
      'Remove "title: Wagon" in line 4*': 'format: 1\r\ntitle: Wagon\r\nfuel: {}\r\n',
    });
  });

  it('is kept in braces as the one or the other', () => {
    expect(mended('format: 1\nengine: { cylinders: 8, idle: 750 rpm, cylinders: 6 }\n')).toEqual({
      'Remove "cylinders: 6" in line 2': 'format: 1\nengine: { cylinders: 8, idle: 750 rpm }\n',
      'Remove "cylinders: 8" in line 2': 'format: 1\nengine: { idle: 750 rpm, cylinders: 6 }\n',
    });
  });

  it('is kept as the one or the other at the beginning of an item', () => {
    expect(mended('format: 1\nstages:\n  - name: one\n    name: two\n    power: 250 hp\n')).toEqual({
      'Remove "name: two" in line 4': 'format: 1\nstages:\n  - name: one\n    power: 250 hp\n',
      'Remove "name: one" in line 3': 'format: 1\nstages:\n  - name: two\n    power: 250 hp\n',
    });
  });

  it.each([
    ['it has lines of its own', 'format: 1\nengine:\n  cylinders: 8\nengine:\n  cylinders: 6\n'],
    ['others take it over', 'format: 1\nx-a: &a 1\nx-a: &b 2\nx-c: [*a, *b]\n'],
  ])('is left to the user where %s', (_, text) => {
    expect(mended(text)).toEqual({});
  });
});
