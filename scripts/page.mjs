// Builds the page that runs the product with nothing installed: one folder of static files, for any server of files.
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { bundledPackages, licensePage, licenseTexts } from './licenses.mjs';

const FOLDER = 'dist-page';

rmSync(FOLDER, { recursive: true, force: true });
mkdirSync(FOLDER, { recursive: true });
const { metafile } = await build({
  entryPoints: {
    page: 'page/src/page.ts',
    'figures-frame': 'page/src/figures-frame.ts',
    panel: 'client/panel/panel.ts',
    'server-worker': 'server/src/browser.ts',
  },
  outdir: FOLDER,
  bundle: true,
  platform: 'browser',
  target: 'es2022',
  format: 'iife',
  minify: true,
  logLevel: 'warning',
  legalComments: 'linked',
  loader: { '.yaml': 'text' },
  metafile: true,
});
for (const file of ['page/page.css', 'page/colors.css', 'page/figures.html', 'client/panel/panel.css', 'LICENSE'])
  copyFileSync(file, join(FOLDER, file.split('/').at(-1)));

/** Lets the editor style itself, and nothing that a text brings: it changes with the scripts. */
const nonce = createHash('sha256')
  .update(readFileSync(join(FOLDER, 'page.js')))
  .digest('base64url');
writeFileSync(join(FOLDER, 'index.html'), readFileSync('page/index.html', 'utf8').replaceAll('{nonce}', nonce));
writeFileSync(join(FOLDER, 'licenses.txt'), licensePage(licenseTexts(bundledPackages([metafile]))));

const sizes = Object.entries(metafile.outputs).filter(([path]) => path.endsWith('.js'));
const kilobytes = sizes.reduce((sum, [, { bytes }]) => sum + bytes, 0) / 1000;
console.log(`${FOLDER}: index.html and what it needs, ${kilobytes.toFixed(0)} kB of script`);
