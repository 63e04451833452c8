import { choicePage, togetherPage, waitingPage } from '../../report/fit-page.ts';
import { needsPage } from '../../report/needs-page.ts';
import { inOneGo } from '../../text/steps.ts';
import { oneSheet } from '../one-sheet.ts';
import { pageFormat, pageText } from '../page-text.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

export const verb = define({
  about: 'Choose parts of the catalogs that do it in every stage, and tell why the others do not.',
  operands: 'SHEET',
  details: `Tries every part of its kind against the sheet, in every stage, day and end of a tolerance, and keeps those that bring no error the sheet does not have without a part there. Best are those that no other beats in cost, least margin, number of parts and wishes met, without being beaten in one of them. A part without a price ranks last.

Without --slot it chooses for every part that is still open; pump, lines, filters, regulator and wire are tried together. Catalogs are named in the house rules. Without any, it tells what the parts must be, as sizes of the trade.`,
  options: {
    slot: {
      type: 'string',
      short: 's',
      value: 'SLOT',
      about: 'choose for this part only, such as pump or throttle-body',
    },
    format: pageFormat,
  },
  examples: [
    ['fit counter-call.build.yaml', 'parts for all that is open'],
    ['fit --slot pump shelf-wagon.build.yaml', 'which pumps do it, and why the others do not'],
    ['fit --format json shelf-wagon.build.yaml', 'the same for a program'],
  ],
  async run({ operands, chosen, io }) {
    const { service, uri } = await oneSheet('fit', operands, io);
    const { slot, format = 'text' } = chosen;
    if (slot !== undefined && !service.slotNames().includes(slot))
      throw new Misuse(`There is no slot "${slot}"; it is one of ${service.slotNames().join(', ')}.`);
    const fit = inOneGo(service.fit(uri, slot));
    if (!fit) throw new Misuse('fit takes one sheet.');
    if (!fit.hasCatalog) {
      io.complain('the house rules name no catalog, so what the parts must be is told instead.');
      const needs = inOneGo(service.needs(uri));
      if (needs && format !== 'json')
        return { code: ExitCode.clean, out: pageText(needsPage(needs, needs.units), format, io) };
    }
    if (format === 'json') return { code: ExitCode.clean, out: `${JSON.stringify(plainOf(fit), null, 2)}\n` };
    const { currency } = fit;
    const page = 'choice' in fit ? choicePage(fit.choice, currency) : togetherPage(fit.together, fit.hoses, currency);
    return { code: ExitCode.clean, out: pageText([...page, ...waitingPage(fit.waiting, currency)], format, io) };
  },
});

/** Parts by their ids, slots by their names. */
function plainOf(fit: object): unknown {
  const plain = JSON.parse(
    JSON.stringify(fit, (key, value) => {
      if (key === 'part') return value.id;
      return key === 'slot' ? value.name : value;
    }),
  );
  return { version: 1, ...plain };
}
