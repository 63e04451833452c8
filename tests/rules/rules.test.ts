import { describe, expect, it } from 'vitest';
import { type Checked, checkText } from '../../server/src/checking/checked.ts';
import type { Finding } from '../../server/src/checking/finding.ts';
import { verifiedRepairs } from '../../server/src/checking/repair.ts';
import { rules } from '../../server/src/generated/rules.ts';
import { applyEdits, editsFor } from '../../server/src/sheet/edit.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import type { TextEdit } from '../../server/src/sheet/problem.ts';
import { fixtures, goldens, marksOf, readFixture, readMarked } from './fixture.ts';

const all = fixtures();

describe('every rule', () => {
  it('has a fixture, and every fixture a rule', () => {
    expect(all.map(({ rule }) => rule).toSorted()).toEqual(rules.map(({ id }) => id).toSorted());
  });

  it('has a file named as its id, a title, a reason, what to look at, how it is repaired, and a source', () => {
    for (const rule of rules) {
      expect(rule.why.length, rule.id).toBeGreaterThan(60);
      expect(rule.inspect, rule.id).toMatch(/^[A-Z].{15,}[.?]$/);
      expect(rule.remedy, rule.id).toMatch(/^[A-Z].{10,}\.$/);
      expect(rule.source, rule.id).not.toBe('');
      expect(rule.title, rule.id).not.toMatch(/\.$/);
    }
  });
});

describe.each(all)('$rule', ({ rule, folder, bad, good }) => {
  it('has a bad and a good sheet', () => {
    expect(bad.length).toBeGreaterThan(0);
    expect(good.length).toBeGreaterThan(0);
  });

  it.each(good)('finds nothing in %s', (file) => {
    const checked = checkText(readFixture(folder, file), noHouse);
    expect(checked.sheet.problems).toEqual([]);
    expect(marksOf(checked, rule)).toEqual([]);
  });

  it.each(bad)('finds exactly what is marked in %s', (file) => {
    const { text, expected } = readMarked(readFixture(folder, file));
    const checked = checkText(text, noHouse);
    expect(checked.sheet.problems).toEqual([]);
    expect(marksOf(checked, rule)).toEqual(expected);
    expect(checked.findings.flatMap((finding) => [finding.rule, finding.found])).toContain(rule);
  });

  it.each(bad)('repairs %s as its golden files say', (file) => {
    const { text } = readMarked(readFixture(folder, file));
    const checked = checkText(text, noHouse);
    const finding = checked.findings.find((one) => one.rule === rule || one.found === rule);
    const repaired = finding ? verifiedRepairs(checked, finding).map(({ edits }) => applyEdits(text, edits)) : [];
    expect(repaired).toEqual(goldens(folder, file).map((golden) => readFixture(folder, golden)));
  });

  it.each(bad)('offers only repairs that hold in %s', (file) => {
    const { text } = readMarked(readFixture(folder, file));
    for (const ending of ['\n', '\r\n']) {
      const before = text.replaceAll('\n', ending);
      const checked = checkText(before, noHouse);
      for (const finding of checked.findings) {
        for (const repair of verifiedRepairs(checked, finding)) {
          const after = applyEdits(before, repair.edits);
          expect(commentsOf(after)).toEqual(commentsOf(before));
          expect(applyEdits(after, inverse(before, repair.edits))).toBe(before);
          expect(after.replaceAll('\r\n', '').includes(ending === '\r\n' ? '\n' : '\r')).toBe(false);
          expect(repair.after.sheet.text).toBe(after);
          expect(isLeft(finding, checked, repair.after)).toBe(false);
          expect(errorsOf(checked)).toEqual(expect.arrayContaining(errorsOf(repair.after)));
          const settings = repair.planned.changes.filter((change) => 'set' in change);
          expect(applyEdits(after, editsFor(repair.after.sheet, settings) ?? [])).toBe(after);
        }
      }
    }
  });
});

function commentsOf(text: string): string[] {
  return text.split(/\r?\n/).flatMap((line) => /(^|\s)#.*/.exec(line)?.[0].trim() ?? []);
}

/** The edits that undo edits: what they do not touch must stand as before for this to restore the text. */
function inverse(before: string, edits: readonly TextEdit[]): TextEdit[] {
  let shift = 0;
  return edits.map(({ start, end, text }) => {
    const from = start + shift;
    shift += text.length - (end - start);
    return { start: from, end: from + text.length, text: before.slice(start, end) };
  });
}

/** Whether a finding is still there; in a list the next item may have moved to its place, so that they are counted. */
function isLeft(finding: Finding, before: Checked, after: Checked): boolean {
  const [known, left] = [before, after].map(({ findings }) => findings.filter(({ found }) => found === finding.found));
  const isInList = finding.path[0] === 'silence';
  if (isInList) return (left?.length ?? 0) >= (known?.length ?? 0);
  return left?.some((one) => placeOf(one) === placeOf(finding)) ?? false;
}

function placeOf({ found, path }: Finding): string {
  return `${found} ${path.join('.')}`;
}

function errorsOf({ sheet, findings }: Checked): string[] {
  const errors = findings.filter(({ severity }) => severity === 'error').map(({ found }) => found);
  return [...new Set([...sheet.problems.map(({ code }) => code), ...errors])];
}
