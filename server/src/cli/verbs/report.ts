import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { htmlDocument } from '../../report/html.ts';
import { markdown } from '../../report/markdown.ts';
import { reportPage } from '../../report/report-page.ts';
import { inOneGo } from '../../text/steps.ts';
import { oneSheet } from '../one-sheet.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const options = {
  format: {
    type: 'string',
    short: 'f',
    value: 'FORMAT',
    choices: ['html', 'markdown', 'json'],
    about: 'how to write it; html, if not said',
  },
  output: { type: 'string', short: 'o', value: 'FILE', about: 'the file to write; the standard output, if not said' },
} as const;

export const verb = define({
  about: 'Write a build on paper: plan, findings, figures, drawings, needs, questions, assumptions.',
  operands: 'SHEET',
  details: `The HTML is one file that loads nothing and runs nothing, to be read on a screen or printed.

What it says is for planning. Local codes, the makers of the parts and licensed work come first.`,
  options,
  examples: [
    ['report quarry-wagon.build.yaml -o wagon.html', 'a file to send to the customer'],
    ['report --format markdown quarry-wagon.build.yaml', 'the same as Markdown, drawings as tables'],
  ],
  async run({ operands, chosen, io }) {
    const { service, uri } = await oneSheet('report', operands, io);
    const report = inOneGo(service.report(uri));
    if (!report) throw new Misuse('this is no build sheet.');
    const { title, sections, units } = report;
    const texts = {
      html: () => htmlDocument(title, sections, units),
      markdown: () => `${markdown(reportPage(title, sections, units))}\n`,
      json: () => `${JSON.stringify({ version: 1, title, sections }, null, 2)}\n`,
    };
    const out = texts[chosen.format ?? 'html']();
    if (chosen.output === undefined) return { code: ExitCode.clean, out };
    const file = chosen.output;
    await writeFile(resolve(io.cwd, file), out).catch(() => {
      throw new Misuse(`${file} cannot be written.`);
    });
    return { code: ExitCode.clean };
  },
});
