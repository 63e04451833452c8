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

const hashOf = (content) => createHash('sha256').update(content).digest('hex').slice(0, 16);

/** A server stays open all day beside an editor: V8 collects early instead of letting the heap grow to several times what lives. */
const sparing = ['--optimize-for-size', '--semi-space-growth-factor=1'];

/** A run on the command line is short: its heap grows to its size at once rather than step by step, each with a collection. */
const generous = ['--semi-space-growth-factor=16'];

/** A program in plain ASCII, which is read and kept in half the memory; patterns are all that still holds other characters. */
const ascii = (text) =>
  text.replaceAll(/[^\0-\x7f]/g, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** A program as a bundle that knows what it was built of, and the file that starts it with what V8 has compiled of it before. */
async function program(entry, bundle, outfile, { banner = '', flags = [] }) {
  const options = { ...common, ...addressed, entryPoints: [entry], outfile: join('dist', bundle) };
  const named = (hash) => ({ ...options, define: { ...addressed.define, BUILD: JSON.stringify(hash) } });
  const unnamed = await build({ ...named(''), write: false });
  const built = await build(named(hashOf(unnamed.outputFiles.find(({ path }) => path.endsWith(bundle)).contents)));
  const text = ascii(readFileSync(join('dist', bundle), 'utf8'));
  writeFileSync(join('dist', bundle), text);
  const hash = hashOf(text);
  const define = { BUNDLE: JSON.stringify({ file: bundle, hash, flags }) };
  await build({ ...common, entryPoints: ['server/src/start.ts'], outfile, define, banner: { js: banner } });
  return built.metafile;
}

const server = await program('server/src/main.ts', 'server-bundle.cjs', 'dist/server.cjs', { flags: sparing });
const cli = await program('server/src/cli/main.ts', 'build-sheet-bundle.cjs', 'dist/build-sheet.cjs', {
  banner: '#!/usr/bin/env node',
  flags: generous,
});
chmodSync('dist/build-sheet.cjs', 0o755);
const client = await build({
  ...common,
  entryPoints: ['client/src/extension.ts'],
  outfile: 'dist/client.cjs',
  external: ['vscode'],
});
const inBrowser = { ...common, platform: 'browser', target: 'es2022', format: 'iife' };
const panel = await build({
  ...inBrowser,
  entryPoints: ['client/panel/panel.ts', 'client/panel/panel.css'],
  outdir: 'dist',
});
const worker = await build({
  ...inBrowser,
  entryPoints: ['server/src/browser.ts'],
  outfile: 'dist/server-worker.js',
});
const webClient = await build({
  ...inBrowser,
  format: 'cjs',
  entryPoints: ['client/src/browser.ts'],
  outfile: 'dist/client-web.js',
  external: ['vscode'],
});
const bundles = [client, panel, worker, webClient].map(({ metafile }) => metafile);
const packages = bundledPackages([server, cli, ...bundles]);
writeFileSync('dist/licenses.txt', licensePage(licenseTexts(packages)));
