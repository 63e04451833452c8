import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { build } from 'esbuild';
import JSZip from 'jszip';
import { beforeAll, describe, expect, it } from 'vitest';

const PACKED = 'dist/build-sheet.vsix';
const ENTRIES = ['server/src/main.ts', 'server/src/cli/main.ts', 'client/src/extension.ts'];
const BROWSER_ENTRIES = ['server/src/browser.ts', 'client/src/browser.ts'];

let shipped = '';
let bundled: string[] = [];

/** The packages whose files stand in a bundle, read from the marks that esbuild leaves in one that is not minified. */
async function packagesIn(entry: string, platform: 'node' | 'browser'): Promise<string[]> {
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    platform,
    format: 'cjs',
    external: ['vscode'],
    logLevel: 'silent',
  });
  const text = outputFiles[0]?.text ?? '';
  return [...text.matchAll(/^ *\/\/ (node_modules\/(?:.*\/node_modules\/)?(?:@[^/\n]+\/)?[^/\n]+)\//gm)].map(
    ([, folder]) => folder as string,
  );
}

beforeAll(async () => {
  if (!existsSync(PACKED)) throw new Error(`${PACKED} is not there; npm run package makes it.`);
  if (statSync(PACKED).mtimeMs < statSync('scripts/licenses.mjs').mtimeMs)
    throw new Error(`${PACKED} is older than scripts/licenses.mjs; npm run package makes it anew.`);
  const zip = await JSZip.loadAsync(readFileSync(PACKED));
  shipped = (await zip.file('extension/dist/licenses.txt')?.async('string')) ?? '';
  const found = await Promise.all([
    ...ENTRIES.map((entry) => packagesIn(entry, 'node')),
    ...BROWSER_ENTRIES.map((entry) => packagesIn(entry, 'browser')),
  ]);
  bundled = [...new Set(found.flat())].toSorted();
}, 120_000);

describe('the packed extension', () => {
  it('has packages in its bundles', () => {
    expect(bundled).toContain('node_modules/yaml');
    expect(bundled).toContain('node_modules/vscode-languageserver');
  });

  it('carries the license of every bundled package, whole', () => {
    const missing = bundled.filter((folder) => {
      const { name, version } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
      const files = readdirSync(folder).filter((file) => /licen[cs]e|copying/i.test(file));
      const texts = files.map((file) => readFileSync(`${folder}/${file}`, 'utf8').trim());
      return !shipped.includes(`\n${name} ${version} (`) || !texts.some((text) => text && shipped.includes(text));
    });
    expect(missing).toEqual([]);
  });

  it('names no package that is not bundled', () => {
    const named = [...shipped.matchAll(/^-{80}\n\n(\S+) \S+ \(/gm)].map(([, name]) => `node_modules/${name}`);
    expect(named.filter((folder) => !bundled.some((one) => one === folder || one.endsWith(`/${folder}`)))).toEqual([]);
    expect(named.length).toBe(bundled.length);
  });
});
