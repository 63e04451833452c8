// The least that a check of every sheet below a folder must do: reads, parses and validates each, in one thread.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { parseDocument } from 'yaml';

const [folder = '.', project = '.'] = process.argv.slice(2);
const { outputFiles } = await build({
  entryPoints: [join(project, 'server/src/generated/validate.js')],
  bundle: true,
  format: 'esm',
  write: false,
});
const [{ text }] = outputFiles;
const { validateSheet } = await import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`);
const options = { merge: true, prettyErrors: false, logLevel: 'error', uniqueKeys: false };
let valid = 0;
for (const name of readdirSync(folder, { recursive: true }))
  if (name.endsWith('.build.yaml'))
    valid += validateSheet(parseDocument(readFileSync(join(folder, name), 'utf8'), options).toJS());
console.log(valid);
