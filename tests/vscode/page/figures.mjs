// Works in the panel of the figures beside a sheet with real keys and mouse, in three themes.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename } from 'node:path';
import { oddities } from '../../hostile-shop.mjs';
import { note, runStories } from '../suite/runner.cjs';
import { patience, shown, until, workbenchOf } from './workbench.mjs';

const { WORKSPACE, WAGON_SHEET, HOSTILE_SHEET, LONG_SHEET } = process.env;
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const SHOW = 'Build Sheet: Show the Figures Beside the Sheet';
const THEMES = [
  ['Default Light Modern', 'light', 'vscode-light'],
  ['Default Dark Modern', 'dark', 'vscode-dark'],
  ['Default High Contrast', 'contrast', 'vscode-high-contrast'],
];

export default (page) => {
  const { shot, goTo, command } = workbenchOf(page);
  const wagon = readFileSync(WAGON_SHEET, 'utf8');
  const read = (path) => readFileSync(path, 'utf8');
  /** Hosts on this machine, and the name under which VS Code's own service worker gives a page its script and style. */
  const isHere = (host) => /^(127\.0\.0\.1|localhost|.*\.vscode-resource\.vscode-cdn\.net)$/.test(host);
  const strangers = [];
  page.on('request', (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (/^(https?|wss?):$/.test(protocol) && !isHere(hostname)) strangers.push(request.url());
  });

  /** The page in the panel, once it shows a sheet of that title. */
  async function panel(title = 'Quarry wagon', limit = patience) {
    let found;
    const isThere = async () => {
      for (const frame of page.frames()) {
        const shows = () => (document.title === 'Figures' ? document.querySelector('h1')?.textContent : '');
        const heading = await frame.evaluate(shows).catch(() => '');
        if (heading?.includes(title) && (await frame.locator('h1').isVisible())) found = frame;
      }
      return found !== undefined;
    };
    await until(`the figures of ${title}`, isThere, limit);
    return found;
  }

  /** The cells of a figure, as they are read. */
  const cells = (frame, figure) => frame.locator(`tr:has([id="figure-${figure}"]) td`).allTextContents();
  const cellsBecome = (frame, figure, pattern) =>
    until(`${pattern} in ${figure}`, async () => pattern.test((await cells(frame, figure)).join(' | ')));

  /** Line and column (from 1) of a part of a text. */
  function place(text, part) {
    assert.ok(text.includes(part), `the sheet has no ${part}`);
    const before = text.slice(0, text.indexOf(part)).split('\n');
    return [before.length, before.at(-1).length + 1];
  }
  const cursorAt = (line) =>
    page
      .locator('.statusbar-item', { hasText: new RegExp(`Ln ${line}, Col`) })
      .first()
      .waitFor();

  /** Goes among the sheets: with the keyboard in the panel, a sheet would open over it. */
  const leavePanel = () =>
    page
      .locator('.tab', { hasText: basename(WAGON_SHEET) })
      .first()
      .click();
  const goToPart = async (part) => {
    await leavePanel();
    await goTo(basename(WAGON_SHEET), ...place(wagon, part));
  };

  /** Types something in place of a part of the wagon. */
  async function retype(part, other) {
    await goToPart(part);
    for (const _ of part) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.type(other);
    await page.keyboard.press('Escape');
  }

  /** Saves until the wagon is as wanted on disk. */
  async function saved(text) {
    await goToPart('format');
    await until('the wagon as wanted on disk', async () => {
      if (read(WAGON_SHEET) === text) return true;
      await page.keyboard.press('Control+S');
      await page.waitForTimeout(200);
      return false;
    });
  }

  async function undo(text) {
    await goToPart('format');
    await until('the wagon as it was', async () => {
      await page.keyboard.press('Control+Z');
      await page.keyboard.press('Control+S');
      await page.waitForTimeout(200);
      return read(WAGON_SHEET) === text;
    });
  }

  async function attempt(frame, field, value) {
    await frame.locator('#field').fill(field);
    await frame.locator('#value').fill(value);
    await frame.locator('#try').click();
    await frame
      .locator('li', { hasText: `${field} = ${value}` })
      .first()
      .waitFor();
  }

  async function violations(frame) {
    if (!(await frame.evaluate(() => 'axe' in globalThis))) await frame.evaluate(axe);
    return frame.evaluate(async () => {
      const { violations: found } = await globalThis.axe.run(document, { resultTypes: ['violations'] });
      return found.map(
        ({ id, nodes }) =>
          `${id}: ${nodes.length} times, first ${nodes[0].html.slice(0, 200)} ${nodes[0].failureSummary}`,
      );
    });
  }

  const set = (settings) => {
    const { folders } = JSON.parse(read(WORKSPACE));
    writeFileSync(WORKSPACE, JSON.stringify({ folders, settings: { 'git.enabled': true, ...settings } }));
  };

  return runStories(() => {}, {
    'the figures open beside the sheet, by topic, with stages as columns and limits as bars': async () => {
      await page.locator('.monaco-workbench').waitFor();
      await goTo(basename(WAGON_SHEET));
      await page.locator('.statusbar-item[id*="buildSheet.verdict"]').first().waitFor();
      await command(SHOW);
      const frame = await panel();
      assert.deepEqual(await frame.locator('table').first().locator('thead th').allTextContents(), [
        'Figure',
        'first summer',
        'camshaft',
      ]);
      const headings = await frame.locator('h2').allTextContents();
      for (const one of ['What is found', 'What if', 'Engine and stages', 'Fuel supply', 'Still to be asked'])
        assert.ok(headings.includes(one), `no ${one} among ${headings}`);
      await cellsBecome(frame, 'duty-peak-power', /^\d+ %at most 85 % \| \d+ %at most 85 %$/);
      assert.equal(await frame.locator('tr:has([id="figure-duty-peak-power"]) .bar').count(), 2);
      const [sheet, beside] = await Promise.all(
        ['.tab:has-text("pumped")', '.tab:has-text("Figures")'].map((tab) => page.locator(tab).first().boundingBox()),
      );
      assert.ok(beside.x > sheet.x + sheet.width, 'the panel is not beside the sheet');
    },
    'a row and a finding lead to their fields, and the cursor marks the rows of its field': async () => {
      const frame = await panel();
      const [pumpLine] = place(wagon, 'pump:');
      await frame.locator('[id="figure-pump-margin"]').click();
      await cursorAt(pumpLine);
      await goToPart('static-flow');
      await frame.locator('tr.here', { has: frame.locator('[id="figure-injector-flow"]') }).waitFor();
      assert.equal(await frame.locator('tr.here [id="figure-pump-margin"]').count(), 0);
      assert.equal(await frame.locator('tr.here').first().getAttribute('aria-current'), 'true');
      await frame.locator('li button', { hasText: 'The pump gives' }).first().click();
      await cursorAt(pumpLine);
    },
    'an edit changes its figure; beside it stands how it was when saved and committed': async () => {
      const frame = await panel();
      const before = (await cells(frame, 'mean-effective-pressure')).at(-1);
      await frame.locator('#beside').selectOption('saved');
      await frame.locator('th.was').first().waitFor();
      await frame.locator('p[role=status]', { hasText: 'No figure differs from the sheet as it is saved.' }).waitFor();
      await retype('290', '300');
      const start = Date.now();
      await cellsBecome(
        frame,
        'mean-effective-pressure',
        new RegExp(`(?!${before})\\d+ psi \\| ${before}( \\(differs\\))?$`),
      );
      note(`the panel showed the edit ${Date.now() - start} ms after the last key`);
      await frame.locator('p[role=status]', { hasText: /\d+ figures differ from the sheet as it is saved/ }).waitFor();
      await frame.locator('#only').check();
      await until('no figure but those that differ', async () =>
        frame.evaluate(() =>
          [...document.querySelectorAll('tbody tr:has(button)')].every((row) => row.querySelector('.other')),
        ),
      );
      await shot('figures-saved');
      await frame.locator('#only').uncheck();
      await saved(wagon.replace('290', '300'));
      await frame.locator('p[role=status]', { hasText: 'No figure differs from the sheet as it is saved.' }).waitFor();
      await frame.locator('#beside').selectOption('commit');
      await frame.locator('p[role=status]', { hasText: /\d+ figures differ from the last commit/ }).waitFor();
      await undo(wagon);
      await frame.locator('p[role=status]', { hasText: 'No figure differs from the last commit.' }).waitFor();
      await frame.locator('#beside').selectOption('nothing');
      await frame.locator('th.was').first().waitFor({ state: 'detached' });
    },
    'another value and another part are tried together, dropped, written, and taken back by undo': async () => {
      const frame = await panel();
      await attempt(frame, 'throttle-body.injectors.static-flow', '95 lb/h');
      await frame.locator('th.tried').first().waitFor();
      await cellsBecome(frame, 'injector-flow', /\(differs\)/);
      await frame.locator('#field').focus();
      await until('the parts to choose among', async () => {
        await frame.locator('#field').fill('fuel-system.pump');
        return (await frame.locator('#choices option[value="large-240"]').count()) === 1;
      });
      assert.equal(await frame.locator('#present').textContent(), 'It is small-110 now.');
      await attempt(frame, 'fuel-system.pump', 'large-240');
      await frame.locator('p', { hasText: 'No longer found with it:' }).waitFor();
      await shot('figures-tried');
      assert.equal(read(WAGON_SHEET), wagon);
      assert.equal(await page.locator('.tab.dirty', { hasText: 'pumped' }).count(), 0);
      await frame.locator('[id="drop-throttle-body.injectors.static-flow"]').click();
      await frame.locator('li', { hasText: 'static-flow =' }).waitFor({ state: 'detached' });
      await frame.locator('#write').click();
      await frame.locator('th.tried').first().waitFor({ state: 'detached' });
      await saved(wagon.replace('use: small-110', 'use: large-240'));
      await undo(wagon);
      await attempt(frame, 'engine.redline', '5600 apples');
      await frame.locator('[role=alert]', { hasText: 'does not hold' }).waitFor();
      assert.equal(await frame.locator('#write').count(), 0);
      await frame.locator('#drop-all').click();
      await frame.locator('[role=alert]').waitFor({ state: 'detached' });
    },
    'the keyboard alone goes through the panel in its order, with its place to be seen, and into the sheet':
      async () => {
        const frame = await panel();
        const order = [];
        const here = () =>
          frame.evaluate(() => {
            const { activeElement: at } = document;
            return { id: at.id, outline: at.matches('body') ? '' : getComputedStyle(at).outlineStyle };
          });
        await frame.locator('#field').focus();
        for (let tabs = 0; (await here()).id !== 'finding-0'; tabs += 1) {
          assert.ok(tabs < 20, 'Shift+Tab does not lead to the first finding');
          await page.keyboard.press('Shift+Tab');
        }
        order.push('finding-0');
        const wanted = ['finding-0', 'field', 'value', 'try', 'beside', 'topic-Engine and stages', 'topic-Fuel supply'];
        for (let tabs = 0; tabs < 40 && !order.includes(wanted.at(-1)); tabs += 1) {
          await page.keyboard.press('Tab');
          const { id, outline } = await here();
          order.push(id);
          assert.ok(outline !== 'none', `nothing shows that ${id} has the keyboard`);
        }
        assert.deepEqual(
          order.filter((id) => wanted.includes(id)),
          wanted,
        );
        await page.keyboard.press('Tab');
        const { id: first } = await here();
        assert.match(first, /^figure-/);
        await page.keyboard.press('End');
        const { id: last } = await here();
        assert.ok(/^figure-/.test(last) && last !== first);
        await page.keyboard.press('Home');
        assert.equal((await here()).id, first);
        await page.keyboard.press('ArrowDown');
        await page.keyboard.press('ArrowUp');
        assert.equal((await here()).id, first);
        await page.keyboard.press('Shift+Tab');
        await page.keyboard.press('Enter');
        await frame.locator(`[id="${first}"]`).waitFor({ state: 'hidden' });
        await page.keyboard.press('Enter');
        await frame.locator(`[id="${first}"]`).waitFor();
        await page.keyboard.press('Tab');
        await page.keyboard.press('Enter');
        await page.locator('.monaco-editor.focused').waitFor();
      },
    'curves, the way of the fuel and headroom are drawn when they are opened': async () => {
      const frame = await panel();
      for (const name of ['curves', 'ladder']) {
        await frame.locator(`[id="section-${name}"]`).click();
        await frame.locator(`details:has(> [id="section-${name}"]) figure svg`).first().waitFor();
      }
      const titles = (await frame.locator('figure svg > title').allTextContents()).join();
      for (const one of ['Injector duty', 'The way of the fuel', 'Pump delivery', 'How far'])
        assert.ok(titles.includes(one), one);
      await frame.locator('figure svg').first().scrollIntoViewIfNeeded();
      await shot('figures-drawn');
    },
    'it is free of violations in light, dark and high contrast': async () => {
      const frame = await panel();
      await attempt(frame, 'throttle-body.injectors.static-flow', '95 lb/h');
      await frame.locator('th.tried').first().waitFor();
      for (const [theme, name, look] of THEMES) {
        set({ 'workbench.colorTheme': theme });
        await until(`the theme ${theme}`, () => frame.evaluate((one) => document.body.classList.contains(one), look));
        await frame.evaluate(() => document.querySelectorAll('table')[1].scrollIntoView());
        await shot(`figures-${name}`);
        assert.deepEqual(await violations(frame), [], name);
      }
      set({});
      await frame.locator('#drop-all').click();
      await frame.locator('th.tried').first().waitFor({ state: 'detached' });
    },
    'texts that would be markup stay texts': async () => {
      await leavePanel();
      await goTo(basename(HOSTILE_SHEET));
      const frame = await panel('in-title <img src=x');
      await frame.locator('th', { hasText: 'in-stage </th><script>' }).first().waitFor();
      await frame.locator('li', { hasText: 'No catalog has a part "in-id <b' }).waitFor();
      await frame.locator('figure svg').first().waitFor();
      await attempt(frame, 'fuel-system.pump.name', '<img src=x onerror=alert(1)>');
      await frame.locator('th.tried').first().waitFor();
      assert.deepEqual(await frame.evaluate(oddities), []);
      await frame.locator('#drop-all').click();
      await shot('figures-hostile');
    },
    'a sheet of a thousand lines has its figures, and nothing was asked for elsewhere': async () => {
      await leavePanel();
      await goTo(basename(LONG_SHEET));
      const frame = await panel('Long winter');
      await cellsBecome(frame, 'duty-peak-power', /at most 85 %/);
      await shown(frame.locator('figure svg').first(), 20_000);
      assert.deepEqual(strangers, []);
    },
    'what is tried, opened and folded is there again when the panel was closed': async () => {
      await leavePanel();
      let frame = await panel();
      await attempt(frame, 'throttle-body.injectors.static-flow', '95 lb/h');
      await frame.locator('th.tried').first().waitFor();
      await frame.locator('[id="topic-Fuel supply"]').click();
      await frame.locator('[id="figure-pump-margin"]').waitFor({ state: 'hidden' });
      const isAsLeft = async () => {
        frame = await panel();
        await frame.locator('li', { hasText: 'static-flow = 95 lb/h' }).waitFor();
        await frame.locator('th.tried').first().waitFor({ state: 'attached' });
        await cellsBecome(frame, 'injector-flow', /\(differs\)/);
        await frame.locator('[id="topic-Fuel supply"]').waitFor();
        assert.equal(await frame.locator('[id="figure-pump-margin"]').count(), 0);
        await frame.locator('details:has(> #section-curves) figure svg').first().waitFor();
      };
      await page.locator('.tab', { hasText: 'Figures' }).click({ button: 'middle' }); // closes it
      await page.locator('.tab', { hasText: 'Figures' }).waitFor({ state: 'detached' });
      await leavePanel();
      await command(SHOW);
      await isAsLeft();
      assert.deepEqual(strangers, []);
    },
  });
};
