import { readFile, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { mergedText } from '../../features/merge.ts';
import { newline } from '../../text/lines.ts';
import { gitAnswer } from '../git.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

/** How many characters mark a conflict, where git does not say it. */
const USUAL_MARK = 7;

export const verb = define({
  about: 'For git: merge two changes of a sheet field by field.',
  operands: 'BASE OURS THEIRS [MARK-SIZE [PATH]]',
  details: `git-setup makes git call it as a merge driver. The merged text is written to OURS. Changes of different fields are joined, also on one line; where both sides changed one field, or a comment would be lost, the conflict is left with its marks, and the exit code is 1.`,
  options: {},
  examples: [['git-merge base.yaml ours.yaml theirs.yaml', 'ours.yaml takes over what theirs.yaml changed']],
  async run({ operands, io }) {
    const [base, ours, theirs, size, path = ours] = operands;
    if (!base || !ours || !theirs) throw new Misuse('git-merge is called by git, with three to five operands.');
    const files = [base, ours, theirs].map((file) => resolve(io.cwd, file)) as [string, string, string];
    const texts = (await Promise.all(files.map((file) => readFile(file, 'utf8')))) as [string, string, string];
    const mark = Number(size) > 0 && Number(size) < 200 ? Number(size) : USUAL_MARK;
    const byLines = await mergedByLines(files, mark, io.cwd);
    const merged = mergedText(...texts, byLines.isClean ? byLines.text : undefined);
    if ('text' in merged) {
      await writeFile(files[1], merged.text);
      return { code: ExitCode.clean };
    }
    const [, our, their] = texts;
    await writeFile(files[1], byLines.isClean ? bothWhole(our, their, mark) : byLines.text);
    io.complain(`${path}: both sides changed ${merged.conflicts.join(', ')}; choose one in the text.`);
    return { code: ExitCode.found };
  },
});

/** What git makes of it line by line, with marks where both sides changed a line. */
async function mergedByLines(
  [base, ours, theirs]: [string, string, string],
  mark: number,
  cwd: string,
): Promise<{ text: string; isClean: boolean }> {
  const labels = ['-L', 'ours', '-L', 'before', '-L', 'theirs'];
  const files = ['--', ours, base, theirs];
  const { code, out } = await gitAnswer(['merge-file', '-p', `--marker-size=${mark}`, ...labels, ...files], cwd);
  if (code > 127) throw new Misuse('git cannot merge these by lines.');
  return { text: out, isClean: code === 0 };
}

/** Both texts whole between marks: lines that could be joined say something that neither side wanted. */
function bothWhole(ours: string, theirs: string, mark: number): string {
  const end = newline(ours);
  const closed = (text: string) => (text === '' || text.endsWith('\n') ? text : text + end);
  return `${'<'.repeat(mark)} ours${end}${closed(ours)}${'='.repeat(mark)}${end}${closed(theirs)}${'>'.repeat(mark)} theirs${end}`;
}
