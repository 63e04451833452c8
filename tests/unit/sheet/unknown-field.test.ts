import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { read } from './marked.ts';

/** The texts that the repairs of the only problem make; of preferred ones with a star. */
function mended(text: string): string[] {
  const { problems } = read(text);
  expect(problems).toHaveLength(1);
  return problems.flatMap(({ fixes }) =>
    fixes.map(({ edits, preferred }) => applyEdits(text, edits) + (preferred ? '*' : '')),
  );
}

describe('what reads as a field the sheet does not have', () => {
  it.each([
    ['is another name', 'format: 2\nengine:\n  cylindres: 8\n', ['format: 2\nengine:\n  cylinders: 8\n*']],
    ['lacks its space', 'format: 2\nengine: { cylinders:8 }\n', ['format: 2\nengine: { cylinders: 8 }\n*']],
    [
      'is cut by a comma',
      'format: 2\nengine: { redline: 5,500 rpm }\n',
      ['format: 2\nengine: { redline: 5500 rpm }\n*'],
    ],
    ['has no name', 'format: 2\n: 1\n', []],
  ])('%s', (_, text, texts) => {
    expect(mended(text)).toEqual(texts);
  });
});
