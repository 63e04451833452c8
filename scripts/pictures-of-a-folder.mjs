// A folder of sheets in the browser-hosted VS Code: what is found in all of them, repairs, hints. Leaves a picture of each.
// Run by pictures.mjs.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { workbenchOf } from '../tests/vscode/page/workbench.mjs';

const { SHOP, SHOTS, WRONG } = process.env;
const SHEET = 'overreach-roadster.build.yaml';
const SETTINGS = join(SHOP, '.vscode/settings.json');

export default async (page) => {
  const { command, goTo, lightBulb } = workbenchOf(page);
  const shot = async (to) => {
    await page.mouse.move(120, 15); // off what tells more under the pointer
    await page.locator('.monaco-hover:visible').first().waitFor({ state: 'detached' });
    await page.screenshot({ animations: 'disabled', path: join(SHOTS, `${to}.png`) });
  };
  const lines = readFileSync(join(SHOP, SHEET), 'utf8').split('\n');
  const placeOf = (part) => {
    const line = lines.findIndex((one) => one.includes(part));
    return [line + 1, lines[line].indexOf(part) + 2];
  };
  const busy = page.locator('.explorer-folders-view .codicon-tree-item-loading, .monaco-progress-container.active');

  await page.locator('.monaco-workbench').waitFor();
  await goTo(SHEET, ...placeOf('above-blower'));
  await page.locator('.statusbar-item', { hasText: 'Build Sheet' }).first().waitFor();
  await command('Problems: Focus on Problems View');
  const filter = page.locator('.viewpane-filter-container input, .viewpane-filter input').first();
  for (const name of WRONG.split(' ')) {
    await filter.fill(name);
    await page.locator('.markers-panel .monaco-list-row', { hasText: name }).first().waitFor();
  }
  await filter.fill('');
  const files = page.locator('.markers-panel .monaco-list-row', { hasText: '.build.yaml' });
  await files
    .filter({ hasNotText: WRONG.split(' ').at(-1) })
    .first()
    .waitFor();
  await busy.first().waitFor({ state: 'hidden' });
  await shot('folder');
  await command('View: Toggle Panel Visibility');

  await goTo(SHEET, ...placeOf('above-blower'));
  await page.keyboard.press('Control+B');
  await page.locator('.editor-instance .squiggly-error').first().waitFor();
  await lightBulb('Connect the manifold-pressure hose');
  await shot('repairs');
  await page.keyboard.press('Escape');

  const settings = JSON.parse(readFileSync(SETTINGS, 'utf8'));
  writeFileSync(SETTINGS, JSON.stringify({ ...settings, 'buildSheet.hints': true, 'buildSheet.stageVerdicts': true }));
  await goTo(SHEET, ...placeOf('stages:'));
  await page
    .locator('.view-line', { hasText: /at\s(most|least)/ })
    .first()
    .waitFor();
  await page.locator('.codelens-decoration', { hasText: 'open' }).first().waitFor();
  await shot('hints');
  return 0;
};
