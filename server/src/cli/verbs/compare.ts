import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Severity } from '../../checking/rule.ts';
import { severities } from '../check-result.ts';
import { type ComparedSheet, comparedSheets } from '../compare-files.ts';
import { sidesOf } from '../compare-sides.ts';
import { comparisonTexts } from '../compare-text.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const options = {
  format: {
    type: 'string',
    short: 'f',
    value: 'FORMAT',
    choices: ['text', 'markdown', 'json', 'html'],
    about: 'how to write it; text, if not said',
  },
  output: { type: 'string', short: 'o', value: 'FILE', about: 'the file to write; the standard output, if not said' },
  'fail-on': {
    type: 'string',
    value: 'SEVERITY',
    choices: ['error', 'warning', 'information', 'hint'],
    about: 'the exit code is 1 where something of this severity or above is new or worse; never, if not said',
  },
} as const;

export const verb = define({
  about: 'Tell what a change does: what is found now, which figures move, and which field did it.',
  operands: 'OLD [NEW]',
  details: `OLD and NEW are two sheets, two folders, or states of git: a branch, tag or commit stands for the same path as the other side, REF:PATH for a path of its own. Without NEW it is the working folder as it stands.

What did it is found by putting back each changed field alone; where none alone undoes something, the fewest that do together are named. A quantity in another unit, such as 261 kW for 350 hp, has no effect.`,
  options,
  examples: [
    ['compare HEAD wagon.build.yaml', 'what the edits since the last commit do'],
    ['compare origin/main HEAD --format markdown', 'for a comment on a pull request'],
    ['compare plan-a.build.yaml plan-b.build.yaml', 'two ways to build one car'],
    ['compare v1:shop v2:shop -f html -o changes.html', 'a folder in two states, as a page'],
  ],
  async run({ operands: [before, after = '.', ...more], chosen, io }) {
    if (before === undefined || more.length > 0) throw new Misuse('compare takes two sheets, folders or git states.');
    const sides = await sidesOf(before, after, io);
    try {
      const { sheets, isIncomplete } = await comparedSheets(...sides, io);
      const out = comparisonTexts[chosen.format ?? 'text'](sheets, io);
      const code = isIncomplete ? ExitCode.misuse : codeOf(sheets, chosen['fail-on']);
      if (chosen.output === undefined) return { code, out };
      const file = chosen.output;
      await writeFile(resolve(io.cwd, file), out).catch(() => {
        throw new Misuse(`${file} cannot be written.`);
      });
      return { code };
    } finally {
      for (const side of sides) side.close();
    }
  },
});

function codeOf(sheets: readonly ComparedSheet[], bar: Severity | undefined): ExitCode {
  if (bar === undefined) return ExitCode.clean;
  const isAtBar = ({ severity }: { severity: Severity }) => severities.indexOf(severity) <= severities.indexOf(bar);
  const isFound = sheets.some((sheet) => {
    if (sheet.kind === 'both') return [...sheet.comparison.new, ...sheet.comparison.worse].some(isAtBar);
    return sheet.kind === 'added' && sheet.findings.some((one) => one.accepted === undefined && isAtBar(one));
  });
  return isFound ? ExitCode.found : ExitCode.clean;
}
