// Lets the command ask, question after question, and answers with real keys, from an empty file to a whole sheet.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parse } from 'yaml';
import { note, runStories } from '../suite/runner.cjs';
import { until, workbenchOf } from './workbench.mjs';

const { ASKED_SHEET, COMPLETE_SHEET } = process.env;

/** What someone knows of the car, by the place of the question. */
const known = parse(COMPLETE_SHEET);

function answerTo(place) {
  const steps = place.split(/[.[\]]+/).filter(Boolean);
  const value = steps.reduce((inner, step) => inner?.[step], known);
  if (Array.isArray(value)) return value.map((one) => (Array.isArray(one) ? one.join(' ') : one)).join(', ');
  if (value === undefined || typeof value === 'object') return undefined;
  return String(value);
}

export default (page) => {
  const workbench = workbenchOf(page);
  const widget = page.locator('.quick-input-widget');
  const title = widget.locator('.quick-input-title');
  const placeholders = () => widget.locator('input').evaluateAll((inputs) => inputs.map((one) => one.placeholder));
  let keys = 0;

  async function press(key) {
    keys += 1;
    await page.keyboard.press(key);
  }

  async function type(text) {
    keys += text.length;
    await page.keyboard.type(text, { delay: 15 });
  }

  /** The place of the question that is put, once it is another than before; nothing, once none comes for a while. */
  async function nextPlace(before) {
    let place = before;
    let hiddenSince = 0;
    await until(`another question than ${before}`, async () => {
      if (await widget.isVisible()) {
        hiddenSince = 0;
        const told = [...(await title.allTextContents()), ...(await placeholders())];
        place = told.find((text) => / more after it$|, the last one$/.test(text ?? ''))?.split(', ')[0] ?? '';
        return place !== before && place !== '';
      }
      hiddenSince ||= Date.now();
      place = undefined;
      return before !== undefined && Date.now() - hiddenSince > 5000;
    });
    return place;
  }

  return runStories(() => {}, {
    'an empty file becomes a whole sheet by asking, with the keyboard alone': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await workbench.goTo(basename(ASKED_SHEET));
      await page.locator('.statusbar-item', { hasText: 'Build Sheet' }).first().waitFor();
      const start = Date.now();
      await workbench.commandThatAsks('Build Sheet: Ask for What Is Missing');
      const waits = [];
      let count = 0;
      for (let place = await nextPlace(); place !== undefined; ) {
        assert.ok(++count < 400, 'no end of questions');
        if (count === 1 || place === 'ignition.trigger') await workbench.shot(`asking-${count}`);
        const answer = answerTo(place);
        const isList = await widget.locator('.quick-input-list .monaco-list-row').first().isVisible();
        if (answer !== undefined) await type(answer);
        else if (isList) await type('Not known');
        await press('Enter');
        const asked = Date.now();
        place = await nextPlace(place);
        waits.push(Date.now() - asked);
      }
      await page.keyboard.press('Control+S');
      await page.locator('.tab.active:not(.dirty)', { hasText: basename(ASKED_SHEET) }).waitFor();
      await workbench.shot('asked');
      const seconds = Math.round((Date.now() - start) / 1000);
      const middle = waits.toSorted((one, other) => one - other)[Math.floor(waits.length / 2)];
      note(
        `${count} questions, ${keys} keys, ${seconds} s, ${middle} ms from an answer to the next question in the middle`,
      );
      const asked = parse(readFileSync(ASKED_SHEET, 'utf8'));
      assert.equal(asked.stages[0].power, known.stages[0].power);
      assert.equal(asked.stages[1].power, known.stages[1].power);
      assert.equal(asked.ignition.trigger, known.ignition.trigger);
      assert.deepEqual(asked['fuel-system'].pump['flow-at'], known['fuel-system'].pump['flow-at']);
    },
    'Escape stops, and asking again goes on where it was left': async () => {
      await workbench.command('View: Close All Editors');
      await workbench.commandThatAsks('Build Sheet: New Build Sheet');
      await widget.locator('.monaco-list-row', { hasText: 'blower' }).first().waitFor();
      await page.keyboard.type('blower');
      await page.keyboard.press('Enter');
      await page.locator('.view-line', { hasText: 'induction: roots' }).first().waitFor();
      await workbench.commandThatAsks('Build Sheet: Ask for What Is Missing');
      const first = await nextPlace();
      await page.keyboard.press('Escape');
      await widget.waitFor({ state: 'hidden' });
      await workbench.commandThatAsks('Build Sheet: Ask for What Is Missing');
      assert.equal(await nextPlace(), first);
      await page.keyboard.press('Escape');
    },
  });
};
