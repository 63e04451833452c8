import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Files in which packages keep their license, by name and without it. */
const LICENSE_FILE = /^(licen[cs]e|copying)([.-].*)?$/i;

/** The folder of the package that holds a file under node_modules, or undefined for a file of our own. */
function packageFolder(path) {
  return /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1];
}

/** The folders of the packages of which something is in the bundles that esbuild's metafiles describe. */
export function bundledPackages(metafiles) {
  const used = metafiles.flatMap(({ outputs }) =>
    Object.values(outputs).flatMap(({ inputs }) =>
      Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
    ),
  );
  return [...new Set(used.flatMap((path) => packageFolder(path) ?? []))].sort();
}

/**
 * The licenses of bundled packages, one after the other, as the packages ship them.
 * @throws Error where a package ships no license
 */
export function licenseTexts(folders) {
  return folders.map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const file = readdirSync(folder).find((one) => LICENSE_FILE.test(one));
    if (!file) throw new Error(`${name} ships no license file; it cannot be packed.`);
    return { name, version, license, text: readFileSync(join(folder, file), 'utf8').trim() };
  });
}

/** What is bundled and under which license, as one text to ship beside the bundles. */
export function licensePage(texts) {
  const intro = 'The bundles beside this file contain parts of the packages below, each under its own license.';
  const parts = texts.map(({ name, version, license, text }) => `${name} ${version} (${license})\n\n${text}`);
  return `${[intro, ...parts].join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}
