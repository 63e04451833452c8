// One build in the browser-hosted VS Code, from an empty file to a sheet that holds: asked for with real keys, a pump chosen
// from a catalog, other injectors tried. Leaves a picture of each step. Run by pictures.mjs.
import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'yaml';
import { until, workbenchOf } from '../tests/vscode/page/workbench.mjs';

const { SHEET, KNOWN, SHOTS } = process.env;

/** The sample as it would be without a pump, and with injectors that are a size too small. */
const LARGER = '72 lb/h';
const SMALLER = '44 lb/h';
const open = readFileSync(KNOWN, 'utf8')
  .replace(/^#.*\n/gm, '')
  .replace(/^ {2}pump: .*$/m, '  pump:\n    flow-at:\n    current:\n    placement:\n    relief-pressure:')
  .replace(`static-flow: ${LARGER}`, `static-flow: ${SMALLER}`);
const known = parse(open);
const PUMP = 'tank-pump-193';

function answerTo(place) {
  const value = place
    .split(/[.[\]]+/)
    .filter(Boolean)
    .reduce((inner, step) => inner?.[step], known);
  if (Array.isArray(value)) return value.map((one) => (Array.isArray(one) ? one.join(' ') : one)).join(', ');
  return value === undefined || typeof value === 'object' ? undefined : String(value);
}

export default async (page) => {
  const { command, commandThatAsks, goTo } = workbenchOf(page);
  const widget = page.locator('.quick-input-widget');
  const name = basename(SHEET);
  const shot = async (to) => {
    await page.mouse.move(120, 15); // off what tells more under the pointer
    await page.locator('.monaco-hover:visible').first().waitFor({ state: 'detached' });
    await page.screenshot({ animations: 'disabled', path: join(SHOTS, `${to}.png`) });
  };
  const saved = async (isSo) =>
    until('the sheet as wanted on disk', async () => {
      if (isSo(readFileSync(SHEET, 'utf8'))) return true;
      await page.keyboard.press('Control+S');
      await page.waitForTimeout(200);
      return false;
    });

  /** The place of the question that is put, and whether it is the last one, once it is another than before. */
  async function nextQuestion(before) {
    let question;
    await until(`another question than ${before}`, async () => {
      if (!(await widget.isVisible())) return false;
      const placeholders = await widget.locator('input').evaluateAll((inputs) => inputs.map((one) => one.placeholder));
      const told = [...(await widget.locator('.quick-input-title').allTextContents()), ...placeholders];
      const text = told.find((one) => / more after it$|, the last one$/.test(one ?? ''));
      question = { place: text?.split(', ')[0], isLast: text?.endsWith('the last one') };
      return question.place !== undefined && question.place !== before;
    });
    return question;
  }

  await page.locator('.monaco-workbench').waitFor();
  await goTo(name);
  await page.locator('.statusbar-item', { hasText: 'Build Sheet' }).first().waitFor();
  await page.keyboard.press('Control+B'); // leaves the room to the sheet

  await commandThatAsks('Build Sheet: Ask for What Is Missing');
  for (let question = { isLast: false }; !question.isLast; ) {
    question = await nextQuestion(question.place);
    if (question.place === 'ignition.trigger') await shot('asking');
    const answer = answerTo(question.place);
    const isList = await widget.locator('.quick-input-list .monaco-list-row').first().isVisible();
    if (answer !== undefined) await page.keyboard.type(answer, { delay: 15 });
    else if (isList) await page.keyboard.type('Not known');
    await page.keyboard.press('Enter');
  }
  await widget.waitFor({ state: 'hidden' });
  await saved((text) => text.includes('handover'));
  await page.locator('.tab.active:not(.dirty)', { hasText: name }).waitFor();

  await goTo(name);
  await page.keyboard.press('Control+Shift+M');
  await page.locator('.markers-panel .monaco-list-row', { hasText: 'Enough today' }).first().waitFor();
  await shot('asked');
  await page.keyboard.press('Control+J');
  writeFileSync(SHEET, open); // names, and what a person attests, are for no one to ask
  await page.locator('.view-line', { hasText: known.title }).first().waitFor();

  const lines = readFileSync(SHEET, 'utf8').split('\n');
  const line = lines.findIndex((one) => one.startsWith('  pump:'));
  await goTo(name, line + 1, 4);
  await commandThatAsks('Build Sheet: Choose a Part from the Catalogs');
  await widget.locator('.monaco-list-row', { hasText: PUMP }).first().waitFor();
  await shot('choosing');
  await widget.locator('.monaco-list-row', { hasText: PUMP }).first().click();
  await saved((text) => text.includes(`use: ${PUMP}`));

  await command('Build Sheet: Show the Figures Beside the Sheet');
  let frame;
  await until('the figures of the wagon', async () => {
    for (const one of page.frames()) {
      const heading = () => (document.title === 'Figures' ? document.querySelector('h1')?.textContent : '');
      if ((await one.evaluate(heading).catch(() => ''))?.includes(known.title)) frame = one;
    }
    return frame !== undefined;
  });
  await frame.locator('#field').fill('throttle-body.injectors.static-flow');
  await frame.locator('#value').fill(LARGER);
  await frame.locator('#try').click();
  await frame.locator('p', { hasText: 'No longer found with it:' }).waitFor();
  await frame.locator('label', { hasText: 'Only those that differ' }).locator('input').check();
  await frame.locator('h2', { hasText: 'What if' }).evaluate((heading) => heading.scrollIntoView());
  await shot('what-if');
  await frame.locator('label', { hasText: 'Only those that differ' }).locator('input').uncheck();
  await frame.locator('#write').click();
  await page.locator('.tab', { hasText: name }).first().click(); // with the keyboard in the panel nothing is saved
  await saved((text) => text.includes(LARGER) && !text.includes(SMALLER));
  await frame.locator('th.tried').first().waitFor({ state: 'detached' });
  await frame.locator('[id="topic-Fuel supply"]').evaluate((heading) => heading.scrollIntoView());
  await shot('panel');
  return 0;
};
