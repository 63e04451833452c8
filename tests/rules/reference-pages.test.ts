import { describe, expect, it } from 'vitest';
import { outdatedPages, referencePages } from '../../scripts/reference-pages.ts';
import { checkText } from '../../server/src/checking/checked.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import { problemCodes } from '../../server/src/sheet/problem.ts';

describe('the reference', () => {
  it('is what the rules, fixtures and schemas say now (npm run references writes it)', () => {
    expect(outdatedPages()).toEqual([]);
  });

  it('has no two titles of one name on a page', () => {
    for (const [path, text] of referencePages()) {
      const titles = text.replaceAll(/```[\s\S]*?```/g, '').match(/^#+ .*$/gm) ?? [];
      expect(new Set(titles).size, path).toBe(titles.length);
    }
  });

  it.each(Object.entries(problemCodes).filter(([, { example }]) => example))(
    'shows a text with the problem %s',
    (code, { example }) => {
      expect(checkText(example ?? '', noHouse).sheet.problems.map((problem) => problem.code)).toContain(code);
    },
  );
});
