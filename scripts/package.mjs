// Packs the extension with what users need and nothing else, and says how large it is.
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { createVSIX, listFiles } from '@vscode/vsce';
import JSZip from 'jszip';

const packagePath = 'dist/build-sheet.vsix';
await createVSIX({
  packagePath,
  dependencies: false,
  skipLicense: true,
  allowUnusedFilesPattern: true,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});
await dropType();
const files = await listFiles({ packageManager: 0 });
console.log(`${packagePath}: ${(statSync(packagePath).size / 1024).toFixed(0)} kB, ${files.length} files`);

/** A browser's extension host refuses a package of modules, which ours only is to its own scripts; bundles are CommonJS. */
async function dropType() {
  const zip = await JSZip.loadAsync(readFileSync(packagePath));
  const { type: _, ...manifest } = JSON.parse(await zip.file('extension/package.json').async('string'));
  zip.file('extension/package.json', JSON.stringify(manifest, null, 2));
  writeFileSync(packagePath, await zip.generateAsync({ type: 'nodebuffer', compression: 'DEFLATE' }));
}
