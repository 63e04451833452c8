import type { Setting } from '../../features/what-if.ts';
import { comparisonData } from '../../report/comparison-json.ts';
import { type Variant, whatIfPage } from '../../report/what-if-page.ts';
import { inOneGo } from '../../text/steps.ts';
import { oneSheet } from '../one-sheet.ts';
import { pageFormat, pageText } from '../page-text.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

/** Most values of one field that are tried in one call. */
const MOST = 6;

export const verb = define({
  about: 'Tell what other values or parts would do, without touching the sheet.',
  operands: 'SHEET',
  details: `Fields are named by their path; those of a stage by its name, or by its number from 0: stages.blower.boost, stages[1].boost. What a stage changes of the sheet is named the same way: stages.blower.fuel.grade. A part of the catalogs is named by its id: fuel-system.pump=heron-58. Nothing after the = takes the field out.

All that is set is tried together. A field set several times is tried with one value after the other, each beside the present one.`,
  options: {
    set: {
      type: 'string',
      short: 's',
      value: 'FIELD=VALUE',
      multiple: true,
      about: 'another value, or the id of another part; may be given several times',
    },
    format: pageFormat,
  },
  examples: [
    ['what-if quarry-wagon.build.yaml --set "stages.camshaft.power=320 hp"', 'more power in a later stage'],
    [
      'what-if quarry-wagon.build.yaml -s "fuel-system.feed.inside-diameter=6 mm" -s "fuel-system.feed.inside-diameter=10 mm"',
      'two sizes of line beside the present one',
    ],
    ['what-if shelf-wagon.build.yaml -s fuel-system.pump=tank-pump-322 --format json', 'another part, for a program'],
  ],
  async run({ operands, chosen, io }) {
    const settings = (chosen.set ?? []).map(settingOf);
    if (settings.length === 0) throw new Misuse('what-if needs at least one --set FIELD=VALUE.');
    const { service, uri } = await oneSheet('what-if', operands, io);
    const variants = variantsOf(settings).map((each): Variant => {
      const tried = inOneGo(service.whatIf(uri, each));
      if (!tried) throw new Misuse('this is no build sheet.');
      if ('refusal' in tried) throw new Misuse(tried.refusal);
      return tried;
    });
    const { format = 'text' } = chosen;
    if (format !== 'json') return { code: ExitCode.clean, out: pageText(whatIfPage(variants), format, io) };
    const plain = variants.map(({ settings: set, comparison }) => ({ set, ...comparisonData(comparison) }));
    return { code: ExitCode.clean, out: `${JSON.stringify({ version: 1, variants: plain }, null, 2)}\n` };
  },
});

function settingOf(text: string): Setting {
  const at = text.indexOf('=');
  if (at <= 0) throw new Misuse(`--set takes FIELD=VALUE, not "${text}".`);
  return { field: text.slice(0, at).trim(), value: text.slice(at + 1).trim() };
}

/** What is tried together: of a field with several values one after the other, of the others the one value each time. */
function variantsOf(settings: readonly Setting[]): Setting[][] {
  const byField = new Map<string, Setting[]>();
  for (const setting of settings) byField.set(setting.field, [...(byField.get(setting.field) ?? []), setting]);
  const count = Math.max(...[...byField.values()].map((values) => values.length));
  if (count > MOST) throw new Misuse(`what-if tries at most ${MOST} values of a field at once.`);
  const uneven = [...byField].find(([, values]) => values.length !== 1 && values.length !== count);
  if (uneven)
    throw new Misuse(`${uneven[0]} has ${uneven[1].length} values, another field ${count}: give one, or as many.`);
  return Array.from({ length: count }, (_, index) =>
    [...byField.values()].flatMap((values) => values[values.length === 1 ? 0 : index] ?? []),
  );
}
