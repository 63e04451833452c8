import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { open, PARTS, SHEET, shop } from '../catalog/shop.ts';

const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const catalog = readFileSync('samples/counter/shelf.parts.yaml', 'utf8');
const withPump = (pump: string) => wagon.replace(/^ {2}pump: .*\n/m, pump);

/** What a sheet may say of the pump before one is chosen, and what is left of it then. */
const said: [what: string, before: string, after: string][] = [
  ['where it sits, in braces', '  pump: { placement: in-tank }\n', '  pump: { use: ID }\n'],
  ['where it sits, on a line', '  pump:\n    placement: in-tank # as ever\n', '  pump:\n    use: ID\n    # as ever\n'],
  ['nothing', '  pump:\n', '  pump:\n    use: ID\n'],
  ['nothing yet', '  pump:\n    flow-at:\n    placement:\n    distance:\n', '  pump:\n    distance:\n    use: ID\n'],
  ['all of another pump', /^ {2}pump: .*\n/m.exec(wagon)?.[0] ?? '', '  pump: { use: ID }\n'],
];

describe('the parts to pick from', () => {
  it.each(said)('are all that do it where the sheet says %s', { timeout: 60_000 }, (_, before, after) => {
    const text = withPump(before);
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, text);
    const fit = inOneGo(service.fit(SHEET, 'pump'));
    const list = inOneGo(service.pickParts(SHEET, 'pump'));
    if (!fit || !('choice' in fit) || !list) throw new Error('no choice');
    const ids = fit.choice.options.flatMap(({ placings }) => placings.map(({ part }) => part.id));
    expect(ids.length).toBeGreaterThan(0);
    expect(list.picks.map(({ label }) => label)).toEqual(ids);
    expect(list.untried).toBe(0);
    for (const { label, edits } of list.picks)
      expect(applyEdits(text, edits)).toBe(withPump(after.replace('ID', label)));
  });

  it('say of one that the text leaves no place for that it is to be written by hand', { timeout: 60_000 }, () => {
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, withPump('  pump: { placement: in-tank, # as ever\n    current: 9 A }\n'));
    const list = inOneGo(service.pickParts(SHEET, 'pump'));
    expect(list?.picks).toEqual([]);
    expect(list?.missed[0]).toMatchObject({
      label: 'tank-pump-148',
      detail: expect.stringMatching(/under "use" by hand$/),
    });
  });

  it('are counted where time is up before they are tried', () => {
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, withPump('  pump: { placement: in-tank }\n'));
    const steps = service.pickParts(SHEET, 'pump');
    let step = steps.next();
    while (!step.done) step = steps.next(true);
    expect(step.value).toMatchObject({ picks: [], untried: catalog.match(/^ {4}pump: \{/gm)?.length });
  });
});
