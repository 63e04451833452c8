import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const page = readFileSync('EDITOR.md', 'utf8');

/** The rows of the table: the capability and its tests. */
const rows = page
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (capability|---)/.test(line))
  .map((line) => line.slice(2, -2).split(' | '))
  .map((cells) => ({ capability: cells[0] ?? '', tests: cells.at(-1) ?? '' }));

/** Each file that a text names, with the titles after it: "`editing.test.ts`: hover; folding". */
function named(text: string): { file: string; titles: string[] }[] {
  return [...text.matchAll(/`([\w./-]+)`(?:: ([^`]*))?/g)].map(([, name = '', titles = '']) => ({
    file: name.includes('/') ? name : join('tests/protocol', name),
    titles: titles.split(/; */).filter(Boolean),
  }));
}

/** What the tests and stories of a file are called. */
function titlesIn(file: string): string {
  const text = readFileSync(file, 'utf8');
  const isOfTest = /(['"`])((?:(?!\1).)+)\1(?:, (?:async )?(?:\(|function)|\)?: async|,\s*async)/g;
  return [...text.matchAll(isOfTest)].map(([, , title]) => title).join('\n');
}

describe('EDITOR.md', () => {
  it.each(rows)('names tests that there are: $capability', ({ tests }) => {
    const files = named(tests);
    expect(files).not.toEqual([]);
    for (const { file, titles } of files) {
      expect(existsSync(file), file).toBe(true);
      expect(titles, `${file}: which test?`).not.toEqual([]);
      for (const title of titles) expect(titlesIn(file)).toContain(title);
    }
  });

  it('names no test that is not there', () => {
    const files = named(page).map(({ file }) => file);
    const missing = files.filter((file) => /^tests\/.*\.(ts|mjs|lua)$/.test(file) && !existsSync(file));
    expect(missing).toEqual([]);
  });
});
