// The general language servers a bench compares with, on the same documents and schema; installed here on first use.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parse } from 'yaml';

const here = fileURLToPath(new URL('.', import.meta.url));
const schema = 'schemas/build-sheet.schema.json';

/** Ours and the anchors: how each is started, in which language and with which settings, and its form of a document. */
export function servers() {
  if (!existsSync(join(here, 'node_modules', 'yaml-language-server'))) install();
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const settings = (name, value) => {
    const path = join(folder, `${name}.json`);
    writeFileSync(path, JSON.stringify(value));
    return path;
  };
  const bin = (name) => join(here, 'node_modules', name);
  const yaml = {
    validate: true,
    schemaStore: { enable: false },
    schemas: { [pathToFileURL(schema).href]: '*.build.yaml' },
  };
  const json = {
    validate: { enable: true },
    schemas: [{ fileMatch: ['*.build.json'], schema: JSON.parse(readFileSync(schema, 'utf8')) }],
  };
  return [
    { name: 'build-sheet', command: 'node dist/server.cjs --stdio', language: 'build-sheet', document: (path) => path },
    {
      name: 'yaml-language-server',
      command: `node ${bin('yaml-language-server/bin/yaml-language-server')} --stdio`,
      language: 'yaml',
      settings: settings('yaml', { yaml }),
      document: (path) => path,
    },
    {
      name: 'vscode-json-languageserver',
      command: `node ${bin('vscode-json-languageserver/bin/vscode-json-languageserver')} --stdio`,
      language: 'json',
      settings: settings('json', { json }),
      document: (path) => jsonOf(path, folder),
    },
  ];
}

/** Installs what the benches compare with. */
export function install() {
  console.log('Installing the servers to compare with into tests/bench/node_modules ...\n');
  const options = { cwd: here, stdio: 'inherit', shell: process.platform === 'win32' };
  execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], options);
}

/** The sheet as JSON with as many lines: the notes one a line. */
function jsonOf(path, folder) {
  const { notes, ...build } = parse(readFileSync(path, 'utf8'));
  const head = JSON.stringify(build, null, 1).replace(/\n\}$/, '');
  const items = notes.map((note) => `  ${JSON.stringify(note)}`).join(',\n');
  const file = join(folder, `${basename(path, '.build.yaml')}.build.json`);
  writeFileSync(file, `${head},\n "notes": [\n${items}\n ]\n}\n`);
  return file;
}

/** Where to edit a document: in the date of the note in the middle, as `line:column`. */
export function middleDate(path) {
  const text = readFileSync(path, 'utf8');
  const at = text.indexOf('2031-', text.length >> 1);
  const before = text.slice(0, at < 0 ? text.lastIndexOf('2031-') : at);
  return `${before.split('\n').length - 1}:${before.length - before.lastIndexOf('\n') - 1}`;
}
