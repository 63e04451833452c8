// Works in a folder of sheets with real keys: findings of sheets nobody opened, moving about, names, reasons, hints, first steps.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runStories } from '../suite/runner.cjs';
import { shown, until, workbenchOf } from './workbench.mjs';

const { SHOP, WORKSPACE } = process.env;
const PLAN = 'plan.build.yaml';

export default (page) => {
  const { shot, goTo: goToLine, command, commandThatAsks, lightBulb } = workbenchOf(page);
  const input = page.locator('.quick-input-widget input').first();
  const status = page.locator('.statusbar-item[id*="buildSheet.verdict"]');
  const text = (name) => readFileSync(join(SHOP, name), 'utf8');

  /** Opens a sheet as it is on disk with the cursor in the middle of `part`. */
  async function goTo(name, part, n = 0) {
    const sheet = text(name);
    let at = sheet.indexOf(part);
    for (let i = 0; i < n; i += 1) at = sheet.indexOf(part, at + 1);
    assert.ok(at >= 0, `${name} has no ${part}`);
    const before = sheet.slice(0, at).split('\n');
    await goToLine(name, before.length, before.at(-1).length + 2);
  }

  /** Sets what the workspace has set. */
  const set = (settings) => {
    const { folders } = JSON.parse(readFileSync(WORKSPACE, 'utf8'));
    writeFileSync(WORKSPACE, JSON.stringify({ folders, settings }));
  };
  const classOf = { light: 'vs ', dark: 'vs-dark', contrast: 'hc-black' };

  const cursorAt = (line) =>
    page
      .locator('.statusbar-item', { hasText: new RegExp(`Ln ${line}, Col`) })
      .first()
      .waitFor();
  const lineOf = (name, part, n = 0) => {
    let at = text(name).indexOf(part);
    for (let i = 0; i < n; i += 1) at = text(name).indexOf(part, at + 1);
    return text(name).slice(0, at).split('\n').length;
  };

  /** Waits until the sheet on disk holds what was done to it; it may have saved itself meanwhile. */
  async function saved(name, pattern) {
    await until(`${pattern} in ${name}`, async () => {
      if (pattern.test(text(name))) return true;
      await page.keyboard.press('Control+S');
      await page.waitForTimeout(200);
      return false;
    });
  }

  async function choose(title) {
    const row = await lightBulb(title);
    await shot(`actions-${title.split(' ')[0].toLowerCase()}`);
    await row.click();
  }

  return runStories(() => {}, {
    'problems of sheets that nobody opened are listed': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await goTo(PLAN, 'title');
      await page.locator('.statusbar-item', { hasText: 'Build Sheet' }).first().waitFor();
      await command('Problems: Focus on Problems View');
      const files = page.locator('.markers-panel .monaco-list-row');
      await files.first().waitFor();
      await shot('folder-problems');
      const filter = page.locator('.viewpane-filter-container input, .viewpane-filter input').first();
      for (const name of ['unopened.build.yaml', 'overreach-roadster.build.yaml']) {
        await filter.fill(name);
        await files.filter({ hasText: name }).first().waitFor();
      }
      await filter.fill('');
      await command('View: Toggle Panel Visibility');
    },
    'the status bar tells what the sheet comes to': async () => {
      await goTo(PLAN, 'title');
      await status.filter({ hasText: /check/ }).first().waitFor();
      assert.match(await status.first().textContent(), /errors?|nothing wrong found/);
    },
    'F12 on what a stage changes goes to the value before, Ctrl+F12 back': async () => {
      await goTo(PLAN, 'e85');
      await page.keyboard.press('F12');
      await cursorAt(lineOf(PLAN, 'gasoline-e10'));
      await page.keyboard.press('Control+F12');
      await cursorAt(lineOf(PLAN, 'e85'));
    },
    'Shift+F12 leads to where a stage is named, and a name is found in the whole folder': async () => {
      await goTo(PLAN, 'roots blower');
      await page.keyboard.press('Shift+F12');
      await cursorAt(lineOf(PLAN, 'roots blower', 1));
      await page.keyboard.press('Control+P');
      await input.waitFor();
      await input.fill('#hidden stage');
      await page.locator('.quick-input-list .monaco-list-row', { hasText: 'hidden stage' }).first().waitFor();
      await shot('folder-symbols');
      await page.keyboard.press('Escape');
    },
    'F2 renames a stage with the reason that names it': async () => {
      await goTo(PLAN, 'roots blower');
      await page.keyboard.press('F2');
      const box = page.locator('input.rename-input').first();
      await box.waitFor();
      await box.fill('late blower');
      await page.keyboard.press('Enter');
      await saved(PLAN, /late blower[\s\S]*late blower/);
      assert.ok(!text(PLAN).includes('roots blower'));
    },
    'Ctrl+. accepts a finding for a reason that is asked for': async () => {
      await goTo(PLAN, 'contact-points');
      await page.locator('.editor-instance .squiggly-error').first().waitFor();
      await choose('Accept "ignition/contact-points"');
      await input.waitFor();
      await shot('reason');
      await page.keyboard.type('museum piece', { delay: 20 });
      await page.keyboard.press('Enter');
      await saved(PLAN, /rule: ignition\/contact-points, reason: museum piece/);
    },
    'Ctrl+. writes a section on lines and a value in another unit': async () => {
      await goTo(PLAN, 'placement');
      await choose('Write "pump" on lines');
      await saved(PLAN, /pump:\n {4}placement: in-tank\n/);
      await goTo(PLAN, '350 hp');
      await choose('Write it as 261 kW');
      await saved(PLAN, /power: 261 kW/);
    },
    'hints and verdicts are shown once they are asked for, in light, dark and high contrast': async () => {
      await goTo('overreach-roadster.build.yaml', 'stages:');
      const hint = page.locator('.view-line', { hasText: /at\s(most|least)/ }).first();
      assert.equal(await hint.count(), 0, 'hints that nobody asked for');
      for (const [theme, name] of [
        ['Default Light Modern', 'light'],
        ['Default Dark Modern', 'dark'],
        ['Default High Contrast', 'contrast'],
      ]) {
        set({ 'buildSheet.hints': true, 'buildSheet.stageVerdicts': true, 'workbench.colorTheme': theme });
        const isOn = async () =>
          (await page.locator('body > .monaco-workbench, .monaco-workbench').first().getAttribute('class')).includes(
            classOf[name],
          );
        await until(`the theme ${theme}`, isOn);
        await hint.waitFor();
        await page.locator('.codelens-decoration', { hasText: 'open' }).first().waitFor();
        await shot(`hints-${name}`);
      }
    },
    'the sheet is compared with the last commit': async () => {
      set({ 'git.enabled': true });
      await page.locator('.statusbar-item', { hasText: 'bench' }).first().waitFor();
      const tab = page.locator('.tab.active', { hasText: 'report at the last commit and now' });
      await until('the two reports', async () => {
        await goTo(PLAN, 'title');
        const isRun = await command('Build Sheet: Compare the Report with the Last Commit').then(
          () => true,
          () => false,
        );
        return isRun && shown(tab, 30_000);
      });
      const side = (name) => page.locator(`.monaco-diff-editor .editor.${name} .view-line`);
      for (const [name, stage] of [
        ['original', 'roots blower'],
        ['modified', 'late blower'],
      ]) {
        await until(`"${stage}" on the ${name} side`, async () => {
          await side(name).first().click();
          await page.keyboard.press('Control+Home');
          return shown(side(name).filter({ hasText: stage }).first(), 5000);
        });
      }
      await shot('compared');
      await command('View: Close Editor');
    },
    'a new sheet begins from the New File menu': async () => {
      const entry = page.locator('.quick-input-list .monaco-list-row', { hasText: 'Build Sheet' }).first();
      await until('the entry in the menu', async () => {
        await commandThatAsks('Create: New File...');
        if (await shown(entry, 5000)) return true;
        await page.keyboard.press('Escape');
        return false;
      });
      await entry.click();
      const kinds = page.locator('.quick-input-widget', { hasText: 'New Build Sheet' });
      await kinds.locator('.monaco-list-row').first().waitFor();
      await shot('new-file');
      await page.keyboard.press('Enter');
      await page.locator('.tab.active', { hasText: 'Untitled' }).first().waitFor();
      await page.locator('.editor-instance .view-line', { hasText: 'format:' }).first().waitFor();
      await command('View: Revert and Close Editor');
    },
    'the walkthrough has its four steps': async () => {
      await commandThatAsks('Welcome: Open Walkthrough...');
      await page
        .locator('.quick-input-list .monaco-list-row', { hasText: 'First Steps with Build Sheet' })
        .first()
        .click();
      await page.locator('.getting-started-step', { hasText: 'Open a shop to try things in' }).first().waitFor();
      assert.equal(await page.locator('.getting-started-step').count(), 4);
      await shot('walkthrough');
    },
    'the sample shop opens from the extension': async () => {
      await command('Build Sheet: Open the Sample Shop');
      await page.locator('.explorer-viewlet, .explorer-folders-view').first().waitFor();
      await until(
        'the shop',
        async () => (await page.title()).includes('sample-shop') || page.context().pages().length > 1,
      );
      await shot('sample-shop');
    },
  });
};
