// Makes the pictures of the report for the README from a sample: node scripts/pictures.mjs, after npm run build.
import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { installBrowserHost } from '../tests/vscode/browser-host/install.mjs';
import { findChromium } from '../tests/vscode/visual-studio-code.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const SAMPLE = 'samples/millrace-stroker.build.yaml';

/** The pictures: from the top of one element to the bottom of another, by what they hold. */
const PICTURES = {
  'report-plan': ['h1', 'section:has(h2:text-is("How far the parts go")) figure svg'],
  'report-fuel': [
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(1) svg',
    'section:has(h2:text-is("Fuel supply")) figure:nth-of-type(2) figcaption',
  ],
};

installBrowserHost();
const { chromium } = createRequire(join(root, 'tests/vscode/browser-host/package.json'))('playwright-core');
const file = join(mkdtempSync(join(tmpdir(), 'build-sheet-')), 'report.html');
spawnSync(process.execPath, [join(root, 'dist/build-sheet.cjs'), 'report', join(root, SAMPLE), '-o', file]);
const browser = await chromium.launch({ executablePath: findChromium(), args: ['--no-sandbox'] });
const page = await browser.newPage({ viewport: { width: 800, height: 900 }, colorScheme: 'light' });
await page.goto(pathToFileURL(file).href);
for (const [name, [from, to]] of Object.entries(PICTURES)) {
  await page.evaluate(() => {
    for (const table of document.querySelectorAll('figure table')) table.style.display = 'none';
  });
  const first = await page.locator(from).first().boundingBox();
  const last = await page.locator(to).first().boundingBox();
  const y = Math.max(0, first.y - 12);
  const clip = { x: 0, y, width: 800, height: last.y + last.height + 12 - y };
  await page.screenshot({ path: join(root, `pictures/${name}.png`), fullPage: true, clip });
}
await browser.close();
