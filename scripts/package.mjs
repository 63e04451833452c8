// Packs the extension with what users need and nothing else, and says how large it is.
import { statSync } from 'node:fs';
import { createVSIX, listFiles } from '@vscode/vsce';

const packagePath = 'dist/build-sheet.vsix';
await createVSIX({
  packagePath,
  dependencies: false,
  skipLicense: true,
  allowUnusedFilesPattern: true,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});
const files = await listFiles({ packageManager: 0 });
console.log(`${packagePath}: ${(statSync(packagePath).size / 1024).toFixed(0)} kB, ${files.length} files`);
