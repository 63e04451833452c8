// Uses the page of `npm run page` in Chromium, over http, as somebody does who has nothing installed: types, is asked, looks
// at figures, has a finding repaired, takes the report home. Nothing may leave the page, break its policy, or be wrong by
// axe-core. Screenshots are left in tests/artifacts/page/.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { hostileShop, oddities } from '../hostile-shop.mjs';
import { findChromium } from '../vscode/visual-studio-code.mjs';
import { serve } from './serve.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const artifacts = join(root, 'tests/artifacts/page');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const { chromium } = createRequire(join(root, 'tests/vscode/browser-host/package.json'))('playwright-core');

const PHONE = { width: 390, height: 844 };
const SCREEN = { width: 1280, height: 860 };

async function violations(page) {
  const found = [];
  const isSeen = await page.locator('#figures').isVisible();
  for (const frame of page.frames().filter((one) => isSeen || one === page.mainFrame())) {
    await frame.evaluate(axe);
    const run = () =>
      globalThis.axe
        .run(document, { resultTypes: ['violations'], iframes: false, preload: false })
        .then(({ violations }) => violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 200)}`));
    found.push(...(await frame.evaluate(run)));
  }
  return found;
}

const wideness = (page) => page.evaluate(() => document.scrollingElement.scrollWidth - innerWidth);

function stories(page, address) {
  const tab = (name) => page.getByRole('tab', { name, exact: true });
  const editor = page.locator('.cm-content');
  const findings = page.locator('#findings');
  const figures = page.frameLocator('#figures iframe');
  const dialog = page.locator('#dialog');
  const shot = (name) => page.screenshot({ path: join(artifacts, `${name}.png`) });
  const text = () => page.evaluate(() => document.querySelector('.cm-content').cmTile.view.state.doc.toString());

  /** Opens what the dialog offers under a name, and waits until it is there. */
  async function open(offered, name = offered) {
    await page.getByRole('button', { name: 'Begin or open...' }).click();
    await dialog.getByRole('button', { name: offered }).first().click();
    await page.locator('#name', { hasText: name }).waitFor();
  }

  /** The page light and dark, on a screen and a phone, with a name for its screenshots. */
  async function looks(name) {
    for (const [colorScheme, size, viewport] of [
      ['light', 'screen', SCREEN],
      ['dark', 'screen', SCREEN],
      ['dark', 'phone', PHONE],
    ]) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize(viewport);
      assert.deepEqual(await violations(page), [], `${name}, ${colorScheme}, ${size}`);
      for (const frame of page.frames()) {
        const isSeen = frame === page.mainFrame() || (await page.locator('#figures').isVisible());
        if (isSeen) assert.ok((await wideness(frame)) <= 0, `${name} is wider than a ${size}: ${frame.url()}`);
      }
      await page.screenshot({
        path: join(artifacts, `${name}-${colorScheme}-${size}.png`),
        fullPage: size === 'phone',
      });
    }
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize(SCREEN);
  }

  return {
    'opens, and what is typed into the empty sheet is checked': async () => {
      await page.goto(address);
      await findings.getByText('This sheet needs a field "format".').waitFor();
      await editor.click();
      await page.keyboard.insertText('format: 2\nignition: { trigger: contact-points }\n');
      await findings.getByText('ignition/contact-points').waitFor();
      await page.keyboard.insertText('eng');
      await page.keyboard.press('Control+Space');
      await page.locator('.cm-tooltip-autocomplete li', { hasText: 'engine' }).first().waitFor();
      await page.keyboard.press('Enter');
      await page.locator('.cm-line', { hasText: 'engine:' }).waitFor();
    },
    'keeps the text over a reload': async () => {
      await page.waitForFunction(() => Object.values(localStorage).some((one) => one.includes('engine:')));
      await page.reload();
      await page.locator('.cm-line', { hasText: 'engine:' }).waitFor();
      await findings.getByText('ignition/contact-points').waitFor();
    },
    'asks what is missing, and writes the answers': async () => {
      await open('New: street', 'street.build.yaml');
      await tab('Asking').click();
      const question = page.locator('#question');
      const answers = { input: '5 L', choice: 0 };
      for (let count = 0; count < 4; count++) {
        await question.waitFor();
        const asked = await question.textContent();
        const input = page.locator('#asking input');
        if (await input.isVisible()) {
          const example = (await input.getAttribute('placeholder')).match(/such as (.*)$/)?.[1] ?? answers.input;
          await input.fill(example);
          await input.press('Enter');
        } else await page.locator('#asking .answers button').nth(answers.choice).click();
        await page.waitForFunction((before) => document.querySelector('#question')?.textContent !== before, asked);
      }
      assert.ok((await text()).split('\n').length > 5);
      await shot('asking');
      await page.locator('#asking').getByRole('button', { name: 'Back' }).click();
    },
    'a sample shows its findings; one is repaired': async () => {
      await open('overreach-roadster.build.yaml');
      await tab('Findings').click();
      const row = findings.locator('li', { hasText: 'vacuum/reference-above-blower' });
      await row.waitFor();
      await looks('findings');
      await row.getByRole('button', { name: 'vacuum/reference-above-blower: why' }).click();
      await dialog.getByText('How it is repaired').waitFor();
      assert.deepEqual(await violations(page), []);
      await page.keyboard.press('Escape');
      await row.getByRole('button', { name: 'What can be done' }).click();
      await dialog.getByRole('button', { name: /below the blower/ }).click();
      await row.waitFor({ state: 'detached' });
      assert.match(await text(), /port: below-blower \} # the hose stays where it is/);
      await editor.click();
      await page.keyboard.press('Control+Z');
      await row.waitFor();
    },
    'explains the field at the cursor, by pointer and by key': async () => {
      const place = page.locator('.cm-line', { hasText: 'injectors:' });
      await place.getByText('injectors', { exact: true }).first().hover();
      await page.locator('.cm-lsp-hover-tooltip', { hasText: /duty cycle/i }).waitFor();
      await shot('hover');
      await place.getByText('injectors', { exact: true }).first().click();
      await page.keyboard.press('Control+I');
      await dialog
        .getByText(/duty cycle/i)
        .first()
        .waitFor();
      assert.deepEqual(await violations(page), []);
      await page.keyboard.press('Escape');
    },
    'shows figures, curves and the way of the fuel': async () => {
      await tab('Figures').click();
      await figures.locator('table').first().waitFor();
      await figures.getByText('Curves and the way of the fuel').click();
      await figures.locator('figure svg').first().waitFor();
      await looks('figures');
      await figures.locator('tbody th button').first().click();
      await page.locator('.cm-editor.cm-focused').waitFor();
    },
    'tells what the build needs, and how far it goes': async () => {
      await tab('What it needs').click();
      await page.locator('#needs .told li').first().waitFor();
      await tab('How far it goes').click();
      await page.locator('#headroom .told li').first().waitFor();
      await shot('headroom');
      assert.deepEqual(await violations(page), []);
    },
    'the report goes home as a file that loads nothing': async () => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save the report' }).click(),
      ]);
      assert.equal(download.suggestedFilename(), 'overreach-roadster.report.html');
      const html = readFileSync(await download.path(), 'utf8');
      assert.match(html, /Overreach roadster/);
      assert.doesNotMatch(html, /<(script|link|img|iframe)\b/);
    },
    'a part is chosen from the catalog of the sample shop': async () => {
      await open('counter-call.build.yaml');
      await tab('Findings').click();
      await page.locator('.cm-line', { hasText: 'format: 1' }).waitFor();
      await page.keyboard.press('Control+End');
      await page.locator('.cm-content').press('Control+End');
      await page.keyboard.insertText('fuel-system:\n  pump: {}\n');
      await page.locator('.cm-line', { hasText: 'pump: {}' }).getByText('pump').click();
      await page.getByRole('button', { name: 'What can be done here' }).click();
      await dialog
        .getByRole('button', { name: /^Use .*tank-pump/ })
        .first()
        .click();
      await page.locator('.cm-line', { hasText: /use: tank-pump/ }).waitFor();
    },
    'what changed since the sheet was opened is told, also after a reload': async () => {
      await open('quarry-wagon.build.yaml');
      await tab('What changed').click();
      const changes = page.locator('#compare');
      await changes.getByText('No difference.').waitFor();
      await page.locator('.cm-line', { hasText: 'trigger: magnetic-pickup' }).getByText('magnetic-pickup').dblclick();
      await page.keyboard.press('Shift+End');
      await page.keyboard.insertText('contact-points');
      await changes.getByText('Worse: 1 new error').waitFor();
      await changes.getByText('magnetic-pickup').first().waitFor();
      await looks('changed');
      await page.waitForFunction(() => Object.values(localStorage).some((one) => one.includes('contact-points')));
      await page.reload();
      await tab('What changed').click();
      await changes.getByText('Worse: 1 new error').waitFor();
      await tab('Figures').click();
      await figures.locator('#beside').selectOption({ label: 'the sheet as it was opened' });
      await figures.locator('th.was').first().waitFor();
      assert.deepEqual(await figures.locator('#beside option').allTextContents(), [
        'nothing',
        'the sheet as it was opened',
      ]);
    },
    'a section becomes a part of a catalog that is begun here, for other sheets too': async () => {
      await open('A catalog of your own', 'shop.parts.yaml');
      assert.equal(await tab('Figures').isVisible(), false);
      await open('An empty sheet', 'sheet-2.build.yaml');
      await page.locator('.cm-content').click();
      await page.keyboard.insertText('format: 2\nignition:\n  coil: { name: Shed coil, resistance: 0.6 ohm }\n');
      await page.locator('.cm-line', { hasText: 'Shed coil' }).getByText('coil', { exact: true }).click();
      await page.getByRole('button', { name: 'What can be done here' }).click();
      await dialog.getByRole('button', { name: /Make it the part "shed-coil" of "shop.parts.yaml"/ }).click();
      await page.locator('.cm-line', { hasText: 'coil: { use: shed-coil }' }).waitFor();
      await open('shop.parts.yaml');
      assert.match(await text(), /id: shed-coil[\s\S]*resistance: 0\.6 ohm/);
    },
    'files of the user are opened, and saved with the same bytes': async () => {
      const files = Object.entries(hostileShop).map(([name, content]) => ({
        name,
        mimeType: 'application/yaml',
        buffer: Buffer.from(content),
      }));
      await page.locator('#file').setInputFiles(files);
      await page.locator('#name', { hasText: 'hostile.build.yaml' }).waitFor();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save a copy' }).click(),
      ]);
      assert.equal(readFileSync(await download.path(), 'utf8'), hostileShop['hostile.build.yaml']);
    },
    'hostile text stays text everywhere': async () => {
      await findings.getByText('No catalog has a part "in-id <b').waitFor();
      for (const [line, field, told] of [
        ['use: pump-1', 'pump-1', 'in-said <script>'],
        ['injectors:', 'injectors', 'in-stage </th>'],
      ]) {
        await page.locator('.cm-line', { hasText: line }).getByText(field, { exact: true }).first().click();
        await page.keyboard.press('Control+I');
        await dialog.locator('.told', { hasText: told }).waitFor();
        assert.deepEqual(await page.evaluate(oddities), [], `explaining ${field}`);
        await page.keyboard.press('Escape');
        await page.getByRole('button', { name: 'What can be done here' }).click();
        await dialog.getByRole('heading', { name: 'What can be done here' }).waitFor();
        assert.deepEqual(await page.evaluate(oddities), [], `what can be done at ${field}`);
        await page.keyboard.press('Escape');
      }
      for (const [name, place] of [
        ['Figures', figures.getByText('in-title <img src=x').first()],
        ['What it needs', page.locator('#needs .told', { hasText: 'in-later <svg' })],
        ['How far it goes', page.locator('#headroom .told', { hasText: 'in-stage </th>' })],
        ['What changed', page.locator('#compare .told')],
        ['Asking', page.locator('#asking h2')],
      ]) {
        await tab(name).click();
        await place.waitFor();
        for (const frame of page.frames())
          assert.deepEqual(await frame.evaluate(oddities), [], `${name}, ${frame.url()}`);
      }
      assert.match(await page.title(), /^hostile\.build\.yaml/);
    },
    'the licenses of what it is made of are there, whole': async () => {
      const licenses = readFileSync(join(root, 'dist-page/licenses.txt'), 'utf8');
      for (const name of [
        '@codemirror/view',
        '@codemirror/lsp-client',
        '@lezer/yaml',
        'marked',
        'vscode-jsonrpc',
        'yaml',
      ]) {
        assert.match(licenses, new RegExp(`^${name} [\\d.]+ \\((MIT|ISC)\\)$`, 'm'));
      }
      assert.equal((await page.request.get(`${address}licenses.txt`)).status(), 200);
    },
    'a sheet is forgotten when it is wanted': async () => {
      await page.getByRole('button', { name: 'Forget this sheet' }).click();
      await dialog.getByRole('button', { name: 'Forget it' }).click();
      await page.locator('#status', { hasText: 'is forgotten' }).waitFor();
      assert.equal(
        await page.evaluate(() => Object.keys(localStorage).some((key) => key.includes('hostile.build'))),
        false,
      );
    },
  };
}

async function main() {
  mkdirSync(artifacts, { recursive: true });
  const { status } = spawnSync(process.execPath, [join(root, 'scripts/page.mjs')], { cwd: root, stdio: 'inherit' });
  assert.equal(status, 0, 'the page is not built');
  const { address, stop } = await serve(join(root, 'dist-page'));
  const browser = await chromium.launch({ executablePath: findChromium(), args: ['--no-sandbox'] });
  const page = await browser.newPage({ viewport: SCREEN, acceptDownloads: true });
  page.setDefaultTimeout(Number(process.env.PATIENCE ?? 90_000));
  const faults = [];
  page.on('request', (request) => {
    if (!/^(blob|data):/.test(request.url()) && !request.url().startsWith(address))
      faults.push(`asks for ${request.url()}`);
  });
  page.on('pageerror', (error) => faults.push(`fails: ${error.message}`));
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(`says: ${message.text()}`);
  });
  let [passed, failed] = [0, 0];
  for (const [story, run] of Object.entries(stories(page, address))) {
    const start = Date.now();
    try {
      await run();
      assert.deepEqual(faults.splice(0), []);
      passed++;
      console.log(`pass  page: ${story} (${Date.now() - start} ms)`);
    } catch (error) {
      failed++;
      console.log(`FAIL  page: ${story} (${Date.now() - start} ms)\n${error.stack}\n${faults.splice(0).join('\n')}`);
      await page.screenshot({ path: join(artifacts, `failed-${failed}.png`) }).catch(() => {});
      if (process.env.STOP) break;
    }
  }
  await browser.close();
  stop();
  console.log(`page: ${passed} passed, ${failed} failed`);
  if (failed > 0) process.exitCode = 1;
}

await main();
