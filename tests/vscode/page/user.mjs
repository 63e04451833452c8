// Drives the page of the browser-hosted VS Code with keyboard and mouse, as a user does, and leaves screenshots.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { runStories } from '../suite/runner.cjs';
import { serverProcesses } from '../suite/server-process.cjs';
import { contactPoints } from '../suite/sheets.cjs';
import { until, workbenchOf } from './workbench.mjs';

const { EXTENSION, SHEET } = process.env;
const sheet = readFileSync(SHEET, 'utf8');

/** Line and column (from 1) where `text` begins in the sheet. */
function lineAndColumn(text) {
  assert.ok(sheet.includes(text), `the sheet has no ${text}`);
  const before = sheet.slice(0, sheet.indexOf(text)).split('\n');
  return { line: before.length, column: before.at(-1).length + 1 };
}

export default (page) => {
  const { shot, goTo: goToLine, command, lightBulb } = workbenchOf(page);
  const hover = page.locator('.monaco-hover:not(.hidden)').first();
  const errors = page.locator('.editor-instance .squiggly-error');

  /** Opens the sheet with the cursor where `text` begins. */
  function goTo(text) {
    const { line, column } = lineAndColumn(text);
    return goToLine(basename(SHEET), line, column);
  }

  async function showHover() {
    await page.keyboard.press('Control+K');
    await page.keyboard.press('Control+I');
    await hover.waitFor();
    return hover.textContent();
  }

  const colourOf = (word) =>
    page
      .locator('.view-line span > span')
      .getByText(word, { exact: true })
      .first()
      .evaluate((span) => getComputedStyle(span).color);

  return runStories(() => {}, {
    'Ctrl+P opens a sheet, with its quantities coloured': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await goTo('displacement: 4.9 L');
      await page.locator('.view-line', { hasText: 'displacement' }).first().waitFor();
      assert.notEqual(await colourOf('750'), await colourOf('natural'), 'a number does not look like a word');
      assert.notEqual(await colourOf('rpm'), await colourOf('natural'), 'a unit does not look like a word');
      await shot('sheet');
    },
    'hover on injectors shows their figures': async () => {
      await goTo('injectors:');
      assert.match(await showHover(), /Duty cycle/);
      await shot('injectors');
    },
    'Ctrl+Space offers the choices of a field': async () => {
      await goTo(contactPoints.before);
      await page.keyboard.press('Control+Space');
      await page.locator('.suggest-widget .monaco-list-row', { hasText: contactPoints.after }).waitFor();
      await shot('completion');
      await page.keyboard.press('Escape');
    },
    'a bad choice gets a squiggle': async () => {
      await goTo(contactPoints.before);
      for (const _ of contactPoints.before) await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.type(contactPoints.after);
      await page.keyboard.press('Escape');
      await errors.first().waitFor();
      await shot('squiggle');
    },
    'Ctrl+K Ctrl+I explains it, and its link opens the page of the rule': async () => {
      await goTo(contactPoints.before);
      assert.match(await showHover(), new RegExp(contactPoints.code));
      await shot('finding');
      await hover.locator('a', { hasText: contactPoints.code }).first().click();
      await page.locator('.tab', { hasText: `${contactPoints.code.split('/').at(-1)}.md` }).waitFor();
      const pageOfRule = page.frameLocator('iframe.webview').frameLocator('iframe');
      await pageOfRule.locator('h1').waitFor();
      assert.match(await pageOfRule.locator('body').textContent(), /contact points/i);
      await shot('rule-page');
      await page.locator('.tab', { hasText: basename(SHEET) }).click();
      await page.locator('.monaco-editor.focused').waitFor();
    },
    'Ctrl+. repairs it': async () => {
      await goTo(contactPoints.before);
      await lightBulb();
      await shot('fixes');
      await page.keyboard.press('Enter');
      await errors.first().waitFor({ state: 'detached' });
      await shot('repaired');
    },
    'a server that keeps crashing is given up, with a message; the command palette restarts it': async () => {
      for (let crash = 1; crash <= 4; crash += 1) {
        await until('a server', () => serverProcesses(EXTENSION).length > 0);
        const [pid] = serverProcesses(EXTENSION);
        process.kill(pid, 'SIGKILL');
        await until('its end', () => !serverProcesses(EXTENSION).includes(pid));
      }
      await page.locator('.statusbar-item[id="status.notifications"]').click();
      await page.locator('.notification-list-item-message', { hasText: 'will not be restarted' }).waitFor();
      await shot('crashed');
      assert.deepEqual(serverProcesses(EXTENSION), []);
      await command('Build Sheet: Restart Language Server');
      await until('one server', () => serverProcesses(EXTENSION).length === 1);
    },
  });
};
