// Opens the report of every sample in Chromium: no violation that axe-core knows, light and dark; nothing wider than a
// screen, a phone or a sheet of paper; no words of a drawing over others or outside of it; no request leaves the page.
// Prints each to PDF. What it looks like is left in tests/artifacts/report/.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { hostileShop, oddities } from '../hostile-shop.mjs';
import { findChromium } from '../vscode/visual-studio-code.mjs';
import { describePage } from './page.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const program = join(root, 'dist/build-sheet.cjs');
const artifacts = join(root, 'tests/artifacts/report');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const { chromium } = createRequire(join(root, 'tests/vscode/browser-host/package.json'))('playwright-core');

/** Widths in CSS pixels: of a phone, of a screen, and of a sheet of A4 or letter between its margins. */
const WIDTHS = { phone: 390, screen: 1100, paper: 690 };

function report(sheet) {
  const file = join(artifacts, `${basename(sheet).split('.')[0]}.html`);
  const { status, stderr } = spawnSync(process.execPath, [program, 'report', sheet, '-o', file], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`no report of ${sheet}: ${stderr}`);
  return file;
}

async function violations(page) {
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const { violations } = await globalThis.axe.run(document, { resultTypes: ['violations'] });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.length} times, first ${nodes[0].html.slice(0, 160)}`);
  });
  return found.map((one) => `axe-core: ${one}`);
}

/** What is wrong with a report. */
async function faultsOf(browser, file) {
  const context = await browser.newContext({ viewport: { width: WIDTHS.screen, height: 900 } });
  const page = await context.newPage();
  const own = pathToFileURL(file).href;
  const faults = [];
  page.on('request', (request) => {
    if (request.url() !== own) faults.push(`asks for ${request.url()}`);
  });
  page.on('pageerror', (error) => faults.push(`fails: ${error.message}`));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(`says: ${message.text()}`);
  });
  await page.goto(own);
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme, media: 'screen' });
    for (const one of await violations(page)) faults.push(`${colorScheme}: ${one}`);
  }
  await page.emulateMedia({ colorScheme: 'light' });
  for (const [name, width] of Object.entries(WIDTHS)) {
    await page.emulateMedia({ media: name === 'paper' ? 'print' : 'screen' });
    await page.setViewportSize({ width, height: 900 });
    for (const one of await page.evaluate(describePage)) faults.push(`${name}: ${one}`);
  }
  await page.emulateMedia({ media: 'print' });
  await page.pdf({ path: file.replace('.html', '.pdf'), format: 'A4', preferCSSPageSize: true });
  await context.close();
  return faults;
}

/** What is wrong with the report of a shop whose texts would be markup: each must stay the text it is. */
async function hostileFaults(browser) {
  const shop = join(artifacts, 'hostile');
  mkdirSync(shop, { recursive: true });
  for (const [name, text] of Object.entries(hostileShop)) writeFileSync(join(shop, name), text);
  const page = await browser.newPage();
  await page.goto(pathToFileURL(report(join(shop, 'hostile.build.yaml'))).href);
  const text = await page.evaluate(() => document.body.textContent);
  const shown = ['title', 'stage', 'later', 'name', 'reason', 'id', 'part', 'currency'];
  const gone = shown.filter((place) => !text.includes(`in-${place} <`)).map((place) => `no text of the ${place}`);
  const odd = await page.evaluate(oddities);
  await page.close();
  return [...gone, ...odd];
}

mkdirSync(artifacts, { recursive: true });
const samples = readdirSync(join(root, 'samples')).filter((name) => name.endsWith('.build.yaml'));
const wanted = process.argv.slice(2).filter((name) => !name.endsWith('.vsix'));
const chosen = samples.filter((name) => wanted.length === 0 || wanted.some((part) => name.includes(part)));
const browser = await chromium.launch({ executablePath: findChromium(), args: ['--no-sandbox'] });
const checks = chosen.map((sample) => [sample, () => faultsOf(browser, report(join(root, 'samples', sample)))]);
if (wanted.length === 0 || wanted.includes('hostile')) checks.push(['hostile texts', () => hostileFaults(browser)]);
let failed = 0;
for (const [name, check] of checks) {
  const faults = await check().catch((error) => [error.message]);
  for (const fault of faults) console.log(`report: ${name}: ${fault}`);
  if (faults.length > 0) failed++;
}
await browser.close();
console.log(`report: ${checks.length - failed} passed, ${failed} failed`);
if (failed > 0) process.exitCode = 1;
