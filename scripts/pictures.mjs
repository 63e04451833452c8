// Makes the pictures of the README, of one build from an empty file to the report and of a folder of sheets: node
// scripts/pictures.mjs, after npm run package. Takes some minutes: the build is asked for with real keys. With `build` or
// `folder` it makes those alone; with names of PNG files it makes none, and gives those a palette.
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
  'report-plan': ['h1', 'section:has(h2:text-is("How far the parts go")) figure figcaption'],
  'report-fuel': [
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(1) svg',
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(2) figcaption',
  ],
};

/** Makes the build in VS Code, in a shop with a catalog and an empty sheet. */
async function build() {
  mkdirSync(shop);
  for (const name of ['build-sheet.config.yaml', 'shelf.parts.yaml'])
    cpSync(at(`samples/counter/${name}`), join(shop, name));
  writeFileSync(sheet, '');
  mkdirSync(join(shop, '.vscode'));
  writeFileSync(join(shop, '.vscode/settings.json'), '{ "workbench.activityBar.location": "hidden" }');
  await inVisualStudioCode(shop, 'scripts/pictures-of-a-build.mjs', {
    SHEET: sheet,
    KNOWN: at('samples/quarry-wagon.build.yaml'),
    PAGE_SIZE: '1040x680',
  });
}

/** Opens the samples in VS Code, without the lists of what is found in them. */
async function folder() {
  const samples = join(home, 'samples');
  mkdirSync(join(samples, '.vscode'), { recursive: true });
  writeFileSync(join(samples, '.vscode/settings.json'), '{}');
  const wrong = [];
  for (const name of readdirSync(at('samples')).filter((one) => one.endsWith('.build.yaml'))) {
    const text = readFileSync(at(`samples/${name}`), 'utf8');
    if (/^# finding:/m.test(text)) wrong.push(name);
    writeFileSync(join(samples, name), text.replace(/^# finding.*\n/gm, ''));
  }
  await inVisualStudioCode(samples, 'scripts/pictures-of-a-folder.mjs', {
    SHOP: samples,
    WRONG: wrong.join(' '),
    PAGE_SIZE: '1120x720',
  });
}

/** Runs a script with the page of VS Code in a folder, with the packed extension. */
async function inVisualStudioCode(opened, script, given) {
  const { executable, env } = vscode;
  extension ??= await unpackVsix(at('dist/build-sheet.vsix'), home);
  const child = spawn(executable, [opened, `--extensionDevelopmentPath=${extension}`], {
    stdio: 'inherit',
    env: {
      ...process.env,
      ...env,
      LAUNCH_LOG: join(home, 'log'),
      STORY_RECORD: join(home, 'record'),
      PAGE_SCRIPT: at(script),
      SHOTS: shots,
      ...given,
    },
  });
  const code = await new Promise((ok) => child.once('exit', ok));
  if (code !== 0) throw new Error(`${script} ended with ${code}; what it left is in ${home}`);
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
let extension;
const given = process.argv.slice(2);
const wants = (what) => given.length === 0 || given.includes(what);
const files = given.filter((one) => one.endsWith('.png'));
mkdirSync(shots);
if (wants('folder')) await folder();
if (wants('build')) await build();
const { chromium } = createRequire(at('tests/vscode/browser-host/package.json'))('playwright-core');
const browser = await chromium.launch({ executablePath: vscode.env.CHROMIUM, args: ['--no-sandbox'] });
if (wants('build')) await report(browser);
const page = await browser.newPage();
for (const file of files.length > 0 ? files : readdirSync(shots).map((name) => join(shots, name))) {
  const png = await withPalette(page, readFileSync(file));
  writeFileSync(at(`pictures/${basename(file)}`), png);
  console.log(`pictures/${basename(file)}: ${(png.length / 1000).toFixed(0)} kB`);
}
await browser.close();
rmSync(home, { recursive: true, force: true });
