// Bundles client and server into dist/, with the licenses of what is in the bundles; VS Code wants CommonJS.
import { writeFileSync } from 'node:fs';
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
const server = await build({ ...common, entryPoints: ['server/src/main.ts'], outfile: 'dist/server.cjs' });
const client = await build({
  ...common,
  entryPoints: ['client/src/extension.ts'],
  outfile: 'dist/client.cjs',
  external: ['vscode'],
});
const packages = bundledPackages([server.metafile, client.metafile]);
writeFileSync('dist/licenses.txt', licensePage(licenseTexts(packages)));
