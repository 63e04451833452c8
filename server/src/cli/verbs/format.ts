import { Service } from '../../service.ts';
import { applyEdits } from '../../text/apply-edits.ts';
import { opened, reasonOf } from '../check-file.ts';
import { shownPath } from '../check-files.ts';
import { type Mended, patchOf } from '../fix-files.ts';
import { replace } from '../replace.ts';
import { INPUT, sourcesOf } from '../sources.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const options = {
  check: {
    type: 'boolean',
    about: 'write nothing; name the files that would change, with exit code 1 if there are any',
  },
  diff: {
    type: 'boolean',
    about: 'write nothing; show as a patch what would change, with exit code 1 if anything would',
  },
} as const;

export const verb = define({
  about: 'Put the white space of build sheets and house rules in order.',
  operands: '[paths]',
  details: `Two columns a level, one space behind ":", "," and "-" and within braces, one empty line at most, no space at the end of a line. Values and comments stay as they are, and so does a text that cannot be read as YAML.

Paths are as for check; - formats the standard input to the standard output.`,
  options,
  examples: [
    ['format', 'every sheet in this folder and below'],
    ['format --check', 'for CI: which files are not in order'],
    ['format - < draft.build.yaml', 'one text, written to the terminal'],
  ],
  async run({ operands, chosen, io }) {
    if (chosen.check && chosen.diff) throw new Misuse('--check and --diff are two ways to ask; take one.');
    const { files, source, complaints } = await sourcesOf(operands, undefined, io);
    const service = new Service();
    const changes: Mended[] = [];
    let whole = '';
    for (const file of files) {
      const found = await opened(file, service, source);
      const edits = found.kind === 'text' ? service.format(found.uri) : undefined;
      service.close(found.uri);
      if (found.kind !== 'text') complaints.push(`${shownPath(file, io.cwd)}: ${reasonOf(found)}`);
      else if (!edits) complaints.push(`${shownPath(file, io.cwd)}: it cannot be read as YAML, and is left as it is.`);
      const before = found.kind === 'text' ? found.text : '';
      const after = edits ? applyEdits(before, edits) : before;
      if (after !== before) changes.push({ file, before, after });
      whole = after;
    }
    for (const complaint of complaints) io.complain(complaint);
    const failed = complaints.length > 0 ? ExitCode.misuse : undefined;
    if (chosen.check || chosen.diff) {
      const out = chosen.diff
        ? patchOf(changes, io.cwd)
        : changes.map(({ file }) => `${shownPath(file, io.cwd)}\n`).join('');
      return { code: failed ?? (changes.length > 0 ? ExitCode.found : ExitCode.clean), out };
    }
    if (operands.includes(INPUT)) return { code: failed ?? ExitCode.clean, out: whole };
    for (const { file, after } of changes) await replace(file, after);
    const out = changes.map(({ file }) => `${shownPath(file, io.cwd)}\n`).join('');
    return { code: failed ?? ExitCode.clean, out };
  },
});
