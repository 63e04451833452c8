// The extension as a browser has it: no process of ours anywhere, the server in a worker, files as VS Code gives them.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runStories } from '../suite/runner.cjs';
import { serverProcesses } from '../suite/server-process.cjs';
import { shown, until, workbenchOf } from './workbench.mjs';

const { EXTENSION, SHOP } = process.env;
const ROADSTER = 'overreach-roadster.build.yaml';
const WAGON = 'shelf-wagon.build.yaml';

export default (page) => {
  const { shot, goTo, command, commandThatAsks, lightBulb } = workbenchOf(page);
  const hover = page.locator('.monaco-hover:not(.hidden)').first();
  const status = page.locator('.statusbar-item[id*="buildSheet.verdict"]').first();

  const told = (pattern) =>
    until(`the status bar to tell ${pattern}`, async () => pattern.test((await status.textContent()) ?? ''));

  /** Line and column (from 1) where `text` begins in a sheet. */
  function placeOf(path, text) {
    const before = readFileSync(join(SHOP, path), 'utf8').split(text)[0].split('\n');
    return [before.length, before.at(-1).length + 1];
  }

  /** Shows the hover at a text until it tells what is awaited: findings come into it first. */
  async function hoverTells(pattern, name, path, text) {
    await goTo(name, ...placeOf(path, text));
    await page.keyboard.press('Control+K');
    await page.keyboard.press('Control+I');
    const told = () => hover.textContent({ timeout: 5000 }).catch(() => '');
    await until(`a hover that tells ${pattern}`, async () => pattern.test(await told()));
  }

  return runStories(() => {}, {
    'a sheet is checked, and hover shows figures, without a process': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await goTo(ROADSTER);
      await told(/\d+ error/);
      await hoverTells(/duty cycle/i, ROADSTER, ROADSTER, 'injectors:');
      assert.deepEqual(serverProcesses(EXTENSION), []);
      await shot('worker');
    },
    'the light bulb repairs, and Ctrl+Space completes': async () => {
      await goTo(ROADSTER, ...placeOf(ROADSTER, 'above-blower }'));
      await (await lightBulb('below the blower')).click();
      await page.locator('.view-line', { hasText: 'below-blower' }).first().waitFor();
      await goTo(ROADSTER, ...placeOf(ROADSTER, 'magnetic-pickup'));
      await page.keyboard.press('Control+Space');
      await page.locator('.suggest-widget .monaco-list-row', { hasText: 'contact-points' }).waitFor();
      await page.keyboard.press('Escape');
    },
    'house rules and catalogs of the folder are read': async () => {
      await goTo(WAGON, ...placeOf(`counter/${WAGON}`, 'body-4-45'));
      await commandThatAsks('Build Sheet: Choose a Part from the Catalogs');
      await page.locator('.quick-input-list .monaco-list-row', { hasText: 'body-4-43' }).first().waitFor();
      await page.keyboard.press('Escape');
    },
    'the figures open beside the sheet': async () => {
      await command('Build Sheet: Show the Figures Beside the Sheet');
      const panel = page.frameLocator('iframe.webview').frameLocator('iframe');
      await panel.locator('table').first().waitFor();
      await shot('worker-figures');
    },
    'what needs git is not offered': async () => {
      await page.keyboard.press('F1');
      const input = page.locator('.quick-input-widget input').first();
      await input.waitFor();
      await input.fill('>Build Sheet: ');
      await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Save the Report as HTML' }).waitFor();
      const compare = page.locator('.quick-input-list .monaco-list-row', { hasText: 'with the Last Commit' });
      assert.equal(await shown(compare, 100), false);
      await page.keyboard.press('Escape');
    },
  });
};
