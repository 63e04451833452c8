import { createTwoFilesPatch } from 'diff';
import { comparisonPage } from '../../report/comparison-page.ts';
import { paragraph } from '../../report/page.ts';
import { inOneGo } from '../../text/steps.ts';
import { type Handed, handedOver } from '../git-files.ts';
import type { Io } from '../io.ts';
import { pageText } from '../page-text.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

export const verb = define({
  about: 'For git: what the change of one sheet does, after the change itself.',
  operands: 'PATH OLD-FILE OLD-HEX OLD-MODE NEW-FILE NEW-HEX NEW-MODE [NEW-PATH [HEADER]]',
  details:
    'git-setup makes git call it as a diff driver and as a difftool, with what git hands over to such a program.',
  options: {},
  examples: [
    ['git-diff one.build.yaml old.yaml . . new.yaml . .', 'what git diff shows after git-setup --diff compare'],
  ],
  async run({ operands, io }) {
    const [path, oldFile, , , newFile, , , newPath = path] = operands;
    if (path === undefined) throw new Misuse('git-diff is called by git, with seven to nine operands.');
    if (oldFile === undefined || newFile === undefined)
      return { code: ExitCode.clean, out: `${path}: both sides of a merge changed it, and it is not merged yet.\n` };
    const [before, after] = [await side(oldFile, path, io), await side(newFile, newPath ?? path, io)];
    const patch = createTwoFilesPatch(`a/${path}`, `b/${newPath}`, before?.text ?? '', after?.text ?? '');
    return { code: ExitCode.clean, out: `${patch.replace(/^=+\n/, '')}${effect(before, after, io)}` };
  },
});

/** One side; what cannot be read is told, and shown as empty, since git stops at anything but success. */
async function side(file: string, path: string, io: Io): Promise<Handed | undefined> {
  try {
    return await handedOver(file, path, io.cwd);
  } catch (error) {
    if (!(error instanceof Misuse)) throw error;
    io.complain(error.message);
    return undefined;
  }
}

function effect(before: Handed | undefined, after: Handed | undefined, io: Io): string {
  if (!before || !after) return after ? 'A new sheet.\n' : 'A sheet that is taken out.\n';
  const comparison = inOneGo(after.service.compare(after.uri, before.uri, before.service));
  return comparison ? `\n${pageText([...comparisonPage(comparison, 'list'), paragraph('')], 'text', io)}` : '';
}
