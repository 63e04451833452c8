// What a user does in the page of the browser-hosted VS Code with keyboard and mouse. Waits have generous ends, because
// the machine may be busy; doing something again is reported.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { note } from '../suite/runner.cjs';

export const patience = 120_000;

export async function until(what, probe, limit = patience) {
  for (const end = Date.now() + limit; !(await probe()); await new Promise((ok) => setTimeout(ok, 20))) {
    assert.ok(Date.now() < end, `waited ${limit} ms in vain: ${what}`);
  }
}

/** Whether something comes to be seen within a time. */
export const shown = (locator, timeout) =>
  locator.waitFor({ timeout }).then(
    () => true,
    () => false,
  );

/** The workbench of a page. `place` is the name of a file, with line and column after colons where they matter. */
export function workbenchOf(page) {
  page.setDefaultTimeout(patience);
  const input = page.locator('.quick-input-widget input').first();
  const entry = (text) => page.locator('.quick-input-list .monaco-list-row', { hasText: text }).first();

  /** Opens a prompt by a key, again when a workbench that is still starting took the focus away. */
  async function prompt(key) {
    await page.keyboard.press(key);
    for (let tries = 1; !(await shown(input, 10_000)); tries += 1) {
      assert.ok(tries < 10, `${key} opens no prompt`);
      note(`${key} pressed again: no prompt within 10 s`);
      await page.keyboard.press(key);
    }
  }

  /** Fills texts into a prompt one after the other and takes the row expected, again when something took the focus away. */
  async function take(key, expected, ...texts) {
    for (let tries = 1; ; tries += 1) {
      await prompt(key);
      try {
        for (const text of texts) {
          await input.fill(text, { timeout: 20_000 });
          await entry(expected).waitFor({ timeout: 40_000 });
        }
        await entry(expected).click({ timeout: 20_000 }); // Enter would take the row on top, which may be another
        return;
      } catch (error) {
        if (tries === 3) throw error;
        note(`${texts.at(-1)} asked for again: ${String(error.message).split('\n')[0]}`);
        await page.keyboard.press('Escape');
      }
    }
  }

  const closed = () => page.locator('.quick-input-widget').first().waitFor({ state: 'hidden' });

  return {
    shot: (name) =>
      page.screenshot({ animations: 'disabled', path: join(process.env.ARTIFACTS, `vscode-${name}.png`) }),

    /** Opens a file with the cursor at a line and column, counted from 1. */
    async goTo(name, line = 1, column = 1) {
      await take('Control+P', name, name, `${name}:${line}:${column}`);
      await closed();
      await page.locator('.tab.active', { hasText: name }).first().waitFor();
      await page.locator('.statusbar-item', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
      await page.locator('.monaco-editor.focused').waitFor();
    },

    /**
     * Opens the light bulb's menu and gives its row with a text. The editor asks for the bulb by itself 250 ms after the
     * cursor has moved, and drops a menu asked for before that which is not there 500 ms later: that comes first.
     */
    async lightBulb(title = '') {
      const row = page.locator('.action-widget .monaco-list-row', { hasText: title }).first();
      await page.evaluate(() => new Promise((rested) => setTimeout(rested, 300)));
      await page.keyboard.press('Control+.');
      for (let tries = 1; !(await shown(row, 5_000)); tries += 1) {
        assert.ok(tries < 20, `no "${title}" in the light bulb`);
        note('Control+. pressed again: no menu within 5 s');
        await page.keyboard.press('Escape');
        await page.keyboard.press('Control+.');
      }
      return row;
    },

    /** Runs a command that opens a prompt of its own, by its title. */
    async commandThatAsks(title) {
      await take('F1', title, `>${title}`);
    },

    /** Runs a command by its title. */
    async command(title) {
      await take('F1', title, `>${title}`);
      await closed();
    },
  };
}
