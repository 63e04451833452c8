// Makes the pictures of one build for the README, from an empty file to the report: node scripts/pictures.mjs, after
// npm run package. Takes some minutes: the build is asked for with real keys. With names of PNG files it makes none, and
// gives those a palette.
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { unpackVsix } from '../tests/vscode/package-under-test.mjs';
import { findVisualStudioCode } from '../tests/vscode/visual-studio-code.mjs';
import { withPalette } from './palette-png.mjs';

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'build-sheet-pictures-'));
const [shop, shots] = ['shop', 'shots'].map((name) => join(home, name));
const sheet = join(shop, 'quarry-wagon.build.yaml');

/** The pictures of the report: from the top of one element to the bottom of another. */
const REPORT = {
  'report-plan': ['h1', 'section:has(h2:text-is("How far the parts go")) figure svg'],
  'report-fuel': [
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(1) svg',
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(2) figcaption',
  ],
};

/** Makes the build in VS Code, in a shop with a catalog and an empty sheet. */
async function build({ executable, env }) {
  for (const folder of [shop, shots]) mkdirSync(folder);
  for (const name of ['build-sheet.config.yaml', 'shelf.parts.yaml'])
    cpSync(at(`samples/counter/${name}`), join(shop, name));
  writeFileSync(sheet, '');
  mkdirSync(join(shop, '.vscode'));
  writeFileSync(join(shop, '.vscode/settings.json'), '{ "workbench.activityBar.location": "hidden" }');
  const extension = await unpackVsix(at('dist/build-sheet.vsix'), home);
  const child = spawn(executable, [shop, `--extensionDevelopmentPath=${extension}`], {
    stdio: 'inherit',
    env: {
      ...process.env,
      ...env,
      LAUNCH_LOG: join(home, 'log'),
      STORY_RECORD: join(home, 'record'),
      PAGE_SCRIPT: at('scripts/pictures-of-a-build.mjs'),
      SHEET: sheet,
      KNOWN: at('samples/quarry-wagon.build.yaml'),
      SHOTS: shots,
    },
  });
  const code = await new Promise((ok) => child.once('exit', ok));
  if (code !== 0) throw new Error(`the build in VS Code ended with ${code}; what it left is in ${home}`);
}

/** Takes the pictures of the report of the sheet. */
async function report(browser) {
  const file = join(home, 'report.html');
  spawnSync(process.execPath, [at('dist/build-sheet.cjs'), 'report', sheet, '-o', file]);
  const page = await browser.newPage({ viewport: { width: 800, height: 900 }, colorScheme: 'light' });
  await page.goto(pathToFileURL(file).href);
  await page.evaluate(() => {
    for (const table of document.querySelectorAll('figure table')) table.style.display = 'none';
  });
  for (const [name, [from, to]] of Object.entries(REPORT)) {
    const first = await page.locator(from).first().boundingBox();
    const last = await page.locator(to).first().boundingBox();
    const y = Math.max(0, first.y - 12);
    const clip = { x: 0, y, width: 800, height: last.y + last.height + 12 - y };
    await page.screenshot({ path: join(shots, `${name}.png`), fullPage: true, clip });
  }
}

const vscode = await findVisualStudioCode();
const given = process.argv.slice(2);
if (given.length === 0) await build(vscode);
const { chromium } = createRequire(at('tests/vscode/browser-host/package.json'))('playwright-core');
const browser = await chromium.launch({ executablePath: vscode.env.CHROMIUM, args: ['--no-sandbox'] });
if (given.length === 0) await report(browser);
const page = await browser.newPage();
for (const file of given.length > 0 ? given : readdirSync(shots).map((name) => join(shots, name))) {
  const png = await withPalette(page, readFileSync(file));
  writeFileSync(at(`pictures/${basename(file)}`), png);
  console.log(`pictures/${basename(file)}: ${(png.length / 1000).toFixed(0)} kB`);
}
await browser.close();
rmSync(home, { recursive: true, force: true });
