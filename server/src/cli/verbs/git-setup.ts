import { shownPath } from '../check-files.ts';
import { removeFromGit, setUpGit } from '../git-setting.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const options = {
  diff: {
    type: 'string',
    value: 'HOW',
    choices: ['figures', 'compare'],
    about: 'how git diff shows a sheet: its text with findings and figures after it, or what the change does',
  },
  clone: { type: 'boolean', about: 'say which files are sheets in .git/info/attributes, not in .gitattributes' },
  remove: { type: 'boolean', about: 'take out again what was set up' },
} as const;

export const verb = define({
  about: 'Teach git, in this repository, to show, compare and merge build sheets.',
  operands: '',
  details: `What is set up: git diff shows findings and figures that change beside the text (git diff --no-textconv shows the text alone); git difftool --tool build-sheet tells what a change does; a merge joins changes of different fields, also on one line, and leaves a conflict where both sides changed one field.

The commands go into the configuration of this clone; which files are sheets goes into .gitattributes, which can be committed: without the commands git treats sheets as ever.`,
  options,
  examples: [
    ['git-setup', 'findings and figures in git diff, merging by field'],
    ['git-setup --diff compare --clone', 'what a change does in place of the text, and nothing for the others'],
    ['git-setup --remove', 'as it was before'],
  ],
  async run({ operands, chosen, io }) {
    if (operands.length > 0) throw new Misuse('git-setup takes no paths; it sets up the repository you are in.');
    if (chosen.remove) {
      await removeFromGit(io.cwd);
      return { code: ExitCode.clean, out: 'Git is as it was before.\n' };
    }
    const reach = chosen.clone ? 'clone' : 'repository';
    const file = await setUpGit(io.program, chosen.diff ?? 'figures', reach, io.cwd);
    const next = chosen.clone ? '' : ' Commit it, so that it holds for everyone who has run git-setup.';
    return {
      code: ExitCode.clean,
      out: `Git shows, compares and merges build sheets now. Which files are sheets stands in ${shownPath(file, io.cwd)}.${next}\n`,
    };
  },
});
