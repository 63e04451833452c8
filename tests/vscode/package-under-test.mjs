import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import JSZip from 'jszip';

/** Unpacks a .vsix the way VS Code installs it and returns the extension's folder inside `into`. */
export async function unpackVsix(vsix, into) {
  const zip = await JSZip.loadAsync(readFileSync(vsix));
  const manifest = JSON.parse(await zip.file('extension/package.json').async('string'));
  const folder = join(into, `${manifest.publisher}.${manifest.name}-${manifest.version}`);
  for (const entry of Object.values(zip.files)) {
    if (entry.dir || !entry.name.startsWith('extension/')) continue;
    const path = join(folder, entry.name.slice('extension/'.length));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, await entry.async('nodebuffer'));
  }
  return folder;
}
