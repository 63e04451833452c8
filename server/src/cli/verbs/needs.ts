import { needsData } from '../../report/needs-json.ts';
import { needsPage } from '../../report/needs-page.ts';
import { inOneGo } from '../../text/steps.ts';
import { oneSheet } from '../one-sheet.ts';
import { pageFormat, pageText } from '../page-text.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

export const verb = define({
  about: 'Tell what a build needs of each part over all its stages, and what makes each end.',
  operands: 'SHEET',
  details: `A short sheet will do: cylinders, displacement, fuel, and the stages with their power or blower. What else is not known is taken as usual, and listed with its reason; every answer written into the sheet takes the place of one.

A range holds for its part with all others as they are, or as taken. An end is the last value that breaks no error or warning of the book.`,
  options: { format: pageFormat },
  examples: [
    ['needs quarry-wagon.build.yaml', 'injectors, pump, lines, wire and the rest, with their ranges'],
    ['needs --format json phone.build.yaml', 'the same for a program, numbers in SI units'],
    ['needs - < phone.build.yaml', 'of the standard input'],
  ],
  async run({ operands, chosen, io }) {
    const { service, uri } = await oneSheet('needs', operands, io);
    const needs = inOneGo(service.needs(uri));
    if (!needs) throw new Misuse('this is no build sheet.');
    const { format = 'text' } = chosen;
    if (format === 'json')
      return { code: ExitCode.clean, out: `${JSON.stringify({ version: 1, ...needsData(needs) }, null, 2)}\n` };
    return { code: ExitCode.clean, out: pageText(needsPage(needs, needs.units), format, io) };
  },
});
