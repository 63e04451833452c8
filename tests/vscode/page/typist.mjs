// Types a sheet line by line as a person does, who trusts the editor's indentation and corrects it where it differs.
import assert from 'node:assert/strict';
import { note } from '../suite/runner.cjs';
import { patience } from './workbench.mjs';

/** The lines of a sheet in block style. `column` is where the dash or the key begins. */
export function linesOf(text) {
  const lines = text.split('\n').map((line) => {
    const [, indent, dash = '', rest] = line.match(/^( *)(- )?(.*)$/);
    const [, key, value = ''] = rest.match(/^([\w-]+):(?: (.*))?$/) ?? [];
    return { column: indent.length, dash, rest, key, value };
  });
  return lines.map((line, index) => {
    const next = lines[index + 1];
    return { ...line, isLast: next === undefined, opensList: line.value === '' && next?.dash === '- ' };
  });
}

export function typist(page) {
  let column = 0;
  let hasDash = false;
  const focused = page.locator('.suggest-widget.visible .monaco-list-row.focused .label-name');

  async function press(key, times = 1) {
    for (let n = 0; n < times; n += 1) await page.keyboard.press(key, { delay: 20 });
  }

  /** Moves from where the editor left the cursor to where the line begins. */
  async function toColumn(line) {
    if (hasDash && line.dash && column === line.column) return;
    assert.ok(!hasDash, 'a dash too many');
    await press('Backspace', Math.max(0, column - line.column) / 2);
    await press('Tab', Math.max(0, line.column - column) / 2);
    await page.keyboard.type(line.dash, { delay: 60 });
  }

  /** Enter, and where the editor indents to after the line. */
  async function enter({ column: at, dash, key, value, isLast }) {
    if (isLast) return;
    await press('Enter');
    const isSection = key !== undefined && value === '';
    column = at + (isSection ? 2 : 0) + (dash && key && !/^[{[]/.test(value) ? 2 : 0);
    hasDash = false;
  }

  /** Types letters of a word until the list has it selected, and takes it by Enter. */
  async function complete(word, delay) {
    for (let typed = 1; typed <= word.length; typed += 1) {
      await page.keyboard.type(word[typed - 1], { delay });
      const selected = await selection(typed < word.length ? 10_000 : patience);
      if (selected === word) return press('Enter');
      if (selected === undefined) note(`nothing is offered for ${word.slice(0, typed)}; another letter typed`);
    }
    return assert.fail(`${word} was never offered`);
  }

  /** What the list has selected, as soon as there is a list. */
  async function selection(limit) {
    for (const end = Date.now() + limit; Date.now() < end; await new Promise((ok) => setTimeout(ok, 20))) {
      if (await focused.count())
        return focused
          .first()
          .textContent({ timeout: 1000 })
          .catch(() => undefined);
    }
    return undefined;
  }

  return {
    /** Types every character of a line, and Enter. */
    async typeLine(line, delay) {
      await toColumn(line);
      await page.keyboard.type(line.rest, { delay });
      await enter(line);
    },

    /** Completes the key of a line and its choice, types other values, and Enter. */
    async completeLine(line, delay) {
      await toColumn(line);
      await complete(line.key, delay);
      if (line.value === '') {
        column = line.column + line.dash.length + 2;
        await page.waitForTimeout(delay);
        hasDash = line.opensList;
        return;
      }
      if (line.key !== 'name' && /^[a-z][\w-]*$/.test(line.value)) await complete(line.value, delay);
      else if (line.value.startsWith('[[')) await typePairs(line.value, delay);
      else await page.keyboard.type(line.value, { delay });
      await enter(line);
    },
  };

  /** Types a table into the brackets that the completion of its key has written. */
  async function typePairs(value, delay) {
    const [first, ...others] = value.slice(2, -2).split('], [');
    await page.keyboard.type(first, { delay });
    await press('ArrowRight');
    for (const pair of others) await page.keyboard.type(`, [${pair}]`, { delay });
    await press('End');
  }
}
