import { expect, it } from 'vitest';
import { countText } from '../../../server/src/features/verdict.ts';

it.each([
  [{ errors: 0, warnings: 0, open: 0 }, 'nothing wrong found'],
  [{ errors: 1, warnings: 0, open: 0 }, '1 error'],
  [{ errors: 2, warnings: 1, open: 0 }, '2 errors, 1 warning'],
  [{ errors: 0, warnings: 3, open: 1 }, '3 warnings, 1 check open'],
  [{ errors: 0, warnings: 0, open: 2, points: 1 }, 'nothing wrong found, 2 checks open, 1 point of installation open'],
])('%o in words', (count, text) => {
  expect(countText(count)).toBe(text);
});
