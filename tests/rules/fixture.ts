import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Checked, checkText } from '../../server/src/checking/checked.ts';
import { noHouse } from '../../server/src/sheet/house.ts';

/**
 * A fixture is a folder tests/rules/<area>/<rule>/ with sheets:
 * - bad.build.yaml (also bad-2, bad-3, ...): comment lines `# ^^^^ rule-id: message` mark the text in the line above them
 *   on which a finding is expected; in the first column the `#` is part of the mark, `#^^^`. A second mark line under the
 *   same line means a second finding. Every finding is marked, also those of other rules; only `paper/incomplete` is left
 *   out outside its own fixture.
 * - good.build.yaml (also good-2, ...): has no finding of the rule.
 * - bad.fix-1.build.yaml, ...: the text after the first, second ... repair offered for the rule's first finding.
 */
export const FIXTURES = 'tests/rules';

export type Expected = { rule: string; message: string; start: number; end: number };

const MARK = /^\s*(# *)(\^+) ([a-z-]+\/[a-z-]+): (.*)$/;

/** The sheet without its marks, and the findings they expect. */
export function readMarked(text: string): { text: string; expected: Expected[] } {
  const lines: string[] = [];
  const expected: Expected[] = [];
  let offset = 0;
  let lineStart = 0;
  for (const line of text.split('\n')) {
    const mark = MARK.exec(line);
    if (!mark) {
      lines.push(line);
      lineStart = offset;
      offset += line.length + 1;
      continue;
    }
    const [, lead = '', carets = '', rule = '', message = ''] = mark;
    const from = line.indexOf(lead === '#' ? '#' : '^');
    const end = line.indexOf('^') + carets.length;
    expected.push({ rule, message, start: lineStart + from, end: lineStart + end });
  }
  return { text: lines.join('\n'), expected };
}

/** The findings of a sheet in the form of marks. */
export function marksOf(checked: Checked, ownRule?: string): Expected[] {
  return checked.findings
    .filter(({ rule }) => rule !== 'paper/incomplete' || ownRule === 'paper/incomplete')
    .map(({ rule, message, range }) => ({ rule, message, ...range }));
}

/** The sheet with marks for its findings, to write a fixture from. */
export function marked(text: string, ownRule?: string): string {
  const checked = checkText(text, noHouse);
  const lines = text.split('\n');
  const marks = marksOf(checked, ownRule);
  let offset = 0;
  return lines
    .flatMap((line) => {
      const here = marks.filter(({ start }) => start >= offset && start <= offset + line.length);
      const from = offset;
      offset += line.length + 1;
      return [line, ...here.map((mark) => markLine(mark, mark.start - from))];
    })
    .join('\n');
}

/** In the first column there is no room for `# ` before the mark, so its `#` is part of it: `#^^^^^`. */
function markLine({ rule, message, start, end }: Expected, column: number): string {
  if (column === 0) return `#${'^'.repeat(end - start - 1)} ${rule}: ${message}`;
  return `${' '.repeat(column - 2)}# ${'^'.repeat(end - start)} ${rule}: ${message}`;
}

export type Fixture = { rule: string; folder: string; bad: string[]; good: string[] };

export function fixtures(): Fixture[] {
  return readdirSync(FIXTURES, { withFileTypes: true })
    .filter((area) => area.isDirectory())
    .flatMap((area) =>
      readdirSync(join(FIXTURES, area.name)).map((rule) => {
        const folder = join(FIXTURES, area.name, rule);
        const files = readdirSync(folder).toSorted();
        return {
          rule: `${area.name}/${rule}`,
          folder,
          bad: files.filter((file) => /^bad(-\d+)?\.build\.yaml$/.test(file)),
          good: files.filter((file) => /^good(-\d+)?\.build\.yaml$/.test(file)),
        };
      }),
    );
}

export function readFixture(folder: string, file: string): string {
  return readFileSync(join(folder, file), 'utf8');
}

/** The golden files of a bad sheet, first repair first. */
export function goldens(folder: string, bad: string): string[] {
  const found: string[] = [];
  const stem = bad.replace('.build.yaml', '');
  for (let number = 1; existsSync(join(folder, `${stem}.fix-${number}.build.yaml`)); number++)
    found.push(`${stem}.fix-${number}.build.yaml`);
  return found;
}
