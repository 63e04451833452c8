import { markdown } from '../../report/markdown.ts';
import { needsData } from '../../report/needs-json.ts';
import { needsPage } from '../../report/needs-page.ts';
import { plainText } from '../../report/plain-text.ts';
import { Service } from '../../service.ts';
import { inOneGo } from '../../text/steps.ts';
import { opened, reasonOf, shownPath } from '../check-files.ts';
import { houseRoots } from '../house-roots.ts';
import { sourcesOf } from '../sources.ts';
import { define, ExitCode, Misuse } from '../verb.ts';
import { harmless, wrapped } from '../wrap.ts';

const options = {
  format: {
    type: 'string',
    short: 'f',
    value: 'FORMAT',
    choices: ['text', 'markdown', 'json'],
    about: 'how to write it; text, if not said',
  },
} as const;

/** How wide text is where no terminal says it. */
const USUAL_COLUMNS = 110;

export const verb = define({
  about: 'Tell what a build needs of each part over all its stages, and what makes each end.',
  operands: 'SHEET',
  details: `A short sheet will do: cylinders, displacement, fuel, and the stages with their power or blower. What else is not known is taken as usual, and listed with its reason; every answer written into the sheet takes the place of one.

A range holds for its part with all others as they are, or as taken. An end is the last value that breaks no error or warning of the book.`,
  options,
  examples: [
    ['needs quarry-wagon.build.yaml', 'injectors, pump, lines, wire and the rest, with their ranges'],
    ['needs --format json phone.build.yaml', 'the same for a program, numbers in SI units'],
    ['needs - < phone.build.yaml', 'of the standard input'],
  ],
  async run({ operands, chosen, io }) {
    if (operands.length !== 1) throw new Misuse('needs takes one sheet.');
    const { files, read, complaints } = await sourcesOf(operands, 'stdin.build.yaml', io);
    const [file] = files;
    if (!file || files.length > 1) throw new Misuse(complaints[0] ?? 'needs takes one sheet, not a folder of them.');
    const service = new Service();
    service.workspace.roots = houseRoots(files, io.cwd);
    const found = await opened(file, service, read);
    if (found.kind !== 'text') throw new Misuse(`${shownPath(file, io.cwd)}: ${reasonOf(found)}`);
    const needs = inOneGo(service.needs(found.uri));
    if (!needs) throw new Misuse(`${shownPath(file, io.cwd)}: this is no build sheet.`);
    if (chosen.format === 'json')
      return { code: ExitCode.clean, out: `${JSON.stringify({ version: 1, ...needsData(needs) }, null, 2)}\n` };
    const page = needsPage(needs, needs.units);
    if (chosen.format === 'markdown') return { code: ExitCode.clean, out: `${markdown(page)}\n` };
    const columns = Math.min(io.columns ?? USUAL_COLUMNS, 120);
    const lines = harmlessLines(plainText(page)).map((line) => indented(line, columns));
    return { code: ExitCode.clean, out: `${lines.join('\n')}\n` };
  },
});

function harmlessLines(text: string): string[] {
  return text.split('\n').map(harmless);
}

/** A line in as many as it takes, those after the first below its text. */
function indented(line: string, columns: number): string {
  const indent = line.startsWith('- ') ? '  ' : '';
  return wrapped(line, columns - indent.length).replaceAll('\n', `\n${indent}`);
}
