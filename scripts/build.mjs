// Bundles client and server into dist/; VS Code wants CommonJS.
import { build } from 'esbuild';

const common = {
  bundle: true,
  platform: 'node',
  target: 'node20.9',
  format: 'cjs',
  minify: true,
  sourcemap: false,
  logLevel: 'warning',
  legalComments: 'linked',
};
await build({ ...common, entryPoints: ['server/src/main.ts'], outfile: 'dist/server.cjs' });
await build({ ...common, entryPoints: ['client/src/extension.ts'], outfile: 'dist/client.cjs', external: ['vscode'] });
