// Chooses parts of catalogs from the pick list with real keys: one for a slot, taken back again, and all that is open.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { note, runStories } from '../suite/runner.cjs';
import { until, workbenchOf } from './workbench.mjs';

const { PUMP_SHEET, SHORT_SHEET, PROGRAM } = process.env;
const CHOOSE = 'Build Sheet: Choose a Part from the Catalogs';
const CHOOSE_ALL = 'Build Sheet: Choose All Open Parts from the Catalogs';

export default (page) => {
  const workbench = workbenchOf(page);
  const widget = page.locator('.quick-input-widget');
  const title = widget.locator('.quick-input-title');
  const status = page.locator('.statusbar-item[id*="buildSheet.verdict"]');
  const read = (path) => readFileSync(path, 'utf8');

  /** Saves until the file is as wanted; it may have been saved meanwhile. */
  async function saved(path, isSo) {
    await until(`${basename(path)} as wanted on disk`, async () => {
      if (isSo(read(path))) return true;
      await page.keyboard.press('Control+S');
      await page.waitForTimeout(200);
      return false;
    });
  }

  const told = (pattern) =>
    until(`the status bar to tell ${pattern}`, async () => pattern.test((await status.first().textContent()) ?? ''));

  async function listed(name, part) {
    await title.filter({ hasText: name }).waitFor();
    await widget.locator('.monaco-list-row', { hasText: part }).first().waitFor();
  }

  return runStories(() => {}, {
    'a pump from the pick list makes its finding go, and undo brings the bytes back': async () => {
      const before = read(PUMP_SHEET);
      const lines = before.split('\n');
      const line = lines.findIndex((one) => one.includes('use: small-110'));
      await page.locator('.monaco-workbench').waitFor();
      await workbench.goTo(basename(PUMP_SHEET), line + 1, lines[line].indexOf('small') + 2);
      await told(/\d error/);
      await workbench.commandThatAsks(CHOOSE);
      await listed('Parts for: fuel pump', 'large-240');
      await widget.locator('.monaco-list-row', { hasText: 'small-110' }).first().waitFor();
      await workbench.shot('choosing');
      await page.keyboard.type('large-240');
      await page.keyboard.press('Enter');
      await saved(PUMP_SHEET, (text) => text === before.replace('small-110', 'large-240'));
      await told(/^(?!.*error)/);
      await page.keyboard.press('Control+Z');
      await saved(PUMP_SHEET, (text) => text === before);
      await told(/\d error/);
    },
    'a short sheet becomes one with every part chosen, checked and priced': async () => {
      await workbench.goTo(basename(SHORT_SHEET));
      const start = Date.now();
      await workbench.commandThatAsks(CHOOSE_ALL);
      await listed('Parts for: every open part', '13 parts');
      const price = await widget.locator('.monaco-list-row', { hasText: '13 parts' }).first().textContent();
      await workbench.shot('choosing-all');
      await page.keyboard.press('Enter');
      await saved(SHORT_SHEET, (text) => /\n {2}pump-circuit: \{ use: /.test(text));
      const seconds = Math.round((Date.now() - start) / 1000);
      note(`13 parts with ${CHOOSE_ALL.length + 4} keys at most, ${seconds} s: ${price}`);
      await told(/^(?!.*error)/);
      await workbench.shot('chosen');
      assert.match(price ?? '', /\d+\.\d\d USD/);
      execFileSync(process.execPath, [PROGRAM, 'check', '--fail-on', 'warning', SHORT_SHEET]);
      const fit = execFileSync(process.execPath, [PROGRAM, 'fit', SHORT_SHEET], { encoding: 'utf8' });
      assert.match(fit, /^Every part of this sheet is chosen/);
    },
  });
};
