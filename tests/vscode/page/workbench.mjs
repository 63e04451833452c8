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

const shown = (locator, timeout) =>
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

  async function take(text, expected) {
    await input.fill(text);
    await entry(expected).waitFor();
    await page.keyboard.press('Enter');
  }

  async function choose(text, expected) {
    await take(text, expected);
    await page.locator('.quick-input-widget').first().waitFor({ state: 'hidden' });
  }

  return {
    shot: (name) =>
      page.screenshot({ animations: 'disabled', path: join(process.env.ARTIFACTS, `vscode-${name}.png`) }),

    /** Opens a file with the cursor at a line and column, counted from 1. */
    async goTo(name, line = 1, column = 1) {
      await prompt('Control+P');
      await input.fill(name);
      await entry(name).waitFor();
      await choose(`${name}:${line}:${column}`, name);
      await page.locator('.statusbar-item', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
      await page.locator('.monaco-editor.focused').waitFor();
    },

    /** Runs a command that opens a prompt of its own, by its title. */
    async commandThatAsks(title) {
      await prompt('F1');
      await take(`>${title}`, title);
    },

    /** Runs a command by its title. */
    async command(title) {
      await prompt('F1');
      await choose(`>${title}`, title);
    },
  };
}
