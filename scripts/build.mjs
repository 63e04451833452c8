// Bundles client and server into dist/, with the licenses of what is in the bundles; VS Code wants CommonJS.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
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
const bundle = 'dist/server-bundle.cjs';
const server = await build({ ...common, entryPoints: ['server/src/main.ts'], outfile: bundle });
const hash = createHash('sha256').update(readFileSync(bundle)).digest('hex').slice(0, 16);
const define = { BUNDLE: JSON.stringify(hash) };
await build({ ...common, entryPoints: ['server/src/start.ts'], outfile: 'dist/server.cjs', define });
const client = await build({
  ...common,
  entryPoints: ['client/src/extension.ts'],
  outfile: 'dist/client.cjs',
  external: ['vscode'],
});
const packages = bundledPackages([server.metafile, client.metafile]);
writeFileSync('dist/licenses.txt', licensePage(licenseTexts(packages)));
