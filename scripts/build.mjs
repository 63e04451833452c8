// Bundles client, server and command line into dist/, with the licenses of what is in the bundles; VS Code wants CommonJS.
import { createHash } from 'node:crypto';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { bundledPackages, licensePage, licenseTexts } from './licenses.mjs';

const common = {
  bundle: true,
  platform: 'node',
  target: 'node20.9',
  format: 'cjs',
  minify: true,
  sourcemap: false,
  logLevel: 'warning',
  legalComments: 'linked',
  metafile: true,
};

/** Packages written as modules ask for their own address. */
const addressed = {
  define: { 'import.meta.url': 'bundleAddress' },
  banner: { js: "const bundleAddress = require('node:url').pathToFileURL(__filename).href;" },
};

/** A server stays open all day beside an editor: V8 collects early instead of letting the heap grow to several times what lives. */
const sparing = ['--optimize-for-size', '--semi-space-growth-factor=1'];

/** A program as a bundle, and the file that starts it with what V8 has compiled of it before. */
async function program(entry, bundle, outfile, { banner = '', flags = [] }) {
  const built = await build({ ...common, ...addressed, entryPoints: [entry], outfile: join('dist', bundle) });
  const hash = createHash('sha256')
    .update(readFileSync(join('dist', bundle)))
    .digest('hex')
    .slice(0, 16);
  const define = { BUNDLE: JSON.stringify({ file: bundle, hash, flags }) };
  await build({ ...common, entryPoints: ['server/src/start.ts'], outfile, define, banner: { js: banner } });
  return built.metafile;
}

const server = await program('server/src/main.ts', 'server-bundle.cjs', 'dist/server.cjs', { flags: sparing });
const cli = await program('server/src/cli/main.ts', 'build-sheet-bundle.cjs', 'dist/build-sheet.cjs', {
  banner: '#!/usr/bin/env node',
});
chmodSync('dist/build-sheet.cjs', 0o755);
const client = await build({
  ...common,
  entryPoints: ['client/src/extension.ts'],
  outfile: 'dist/client.cjs',
  external: ['vscode'],
});
const packages = bundledPackages([server, cli, client.metafile]);
writeFileSync('dist/licenses.txt', licensePage(licenseTexts(packages)));
