import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import ts from 'typescript';
import { afterAll, describe, expect, it } from 'vitest';

const SOURCE = 'server/src';

/**
 * The rooms of the server in the order the data flows: each imports only rooms above it. `engineering` stands at the
 * bottom of everything; `generated` is written from the schemas and the folders of rules.
 */
const ROOMS = [
  'engineering',
  'text',
  'units',
  'sheet',
  'workspace',
  'analysis',
  'checking',
  'remedies',
  'rules',
  'fit',
  'report',
  'features',
  'service',
  'disk',
  'lsp',
  'cli',
  'main',
] as const;

/** What the edges of the house may know of it, the language server and the command line alike. */
const SHOWN = ['service', 'workspace', 'features', 'report', 'checking', 'text'];

type Import = { file: string; room: string; target: string; isType: boolean };

const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' }).filter(
  (file) => file.endsWith('.ts') && !file.startsWith('generated'),
);

const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(join(SOURCE, file), 'utf8');
  return [...text.matchAll(/^(?:import|export)\s+(type\s)?[^'";]*?from\s+'([^']+)'/gms)].map(([, type, from = '']) => ({
    file,
    room: roomOf(file),
    target: from.startsWith('.') ? relative(SOURCE, resolve(SOURCE, dirname(file), from)) : from,
    isType: type !== undefined,
  }));
});

function roomOf(file: string): string {
  const [room = ''] = file.split('/');
  return ['start.ts', 'browser.ts'].includes(room) ? 'main' : room.replace(/\.ts$/, '');
}

const inside = imports.filter(({ target }) => target.endsWith('.ts') || target.startsWith('generated/'));
const packages = imports.filter((one) => !inside.includes(one) && !one.target.endsWith('.json'));

/** What a room may import although it stands below: the checker is handed the list of rules. */
function isAllowed({ room, target }: Import): boolean {
  const to = roomOf(target);
  if (to === 'generated') return true;
  const [from, at] = [ROOMS.indexOf(room as (typeof ROOMS)[number]), ROOMS.indexOf(to as (typeof ROOMS)[number])];
  if (from < 0 || at < 0) return false;
  if (room === 'lsp') return [...SHOWN, 'lsp'].includes(to);
  if (room === 'cli') return [...SHOWN, 'disk', 'cli'].includes(to);
  return at <= from;
}

describe('the walls of the server', () => {
  it('know every room', () => {
    expect(
      [...new Set(imports.map(({ room }) => room))].filter((room) => !(ROOMS as readonly string[]).includes(room)),
    ).toEqual([]);
  });

  it('let each room import only those above it', () => {
    expect(inside.filter((one) => !isAllowed(one)).map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  it('let no rule import another', () => {
    const wrong = inside.filter(({ room, target }) => room === 'rules' && roomOf(target) === 'rules');
    expect(wrong.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  it.each([
    ['vscode-languageserver', ['lsp', 'main']],
    ['vscode-languageserver/node', ['lsp', 'main']],
    ['vscode-languageserver-textdocument', ['lsp']],
    ['yaml', ['sheet', 'features']],
    ['node:', ['main', 'disk', 'cli']],
  ])('keep %s to its rooms', (name, rooms) => {
    const wrong = packages.filter(({ target, room }) =>
      name.endsWith(':') ? target.startsWith(name) && !rooms.includes(room) : target === name && !rooms.includes(room),
    );
    expect(wrong.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  it.each(['vscode-languageserver/browser', 'picomatch'])('let %s stand in the protocol', (name) => {
    expect(packages.filter(({ target, room }) => target === name && room !== 'lsp')).toEqual([]);
  });

  it('let no module of Node be reached from the server in a browser', () => {
    const reached = new Set(['browser.ts']);
    for (const file of reached) for (const one of inside) if (one.file === file && !one.isType) reached.add(one.target);
    expect(reached.size).toBeGreaterThan(200);
    const wrong = packages.filter(({ file, target, isType }) => reached.has(file) && !isType && /node\b/.test(target));
    expect(wrong.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
  });

  it('let nothing read a list of inputs that is made for display', () => {
    const readers = files.filter(
      (file) =>
        ['rules', 'remedies', 'checking'].includes(roomOf(file)) &&
        /\.inputs\b/.test(readFileSync(join(SOURCE, file), 'utf8')),
    );
    expect(readers).toEqual([]);
  });
});

describe('the size of files and functions', () => {
  const LONG = 16_000;
  const MOST_LINES = 60;
  const long = files
    .map((file) => ({ file, size: readFileSync(join(SOURCE, file), 'utf8').length }))
    .filter(({ size }) => size > LONG);
  const tall = files.flatMap((file) => functionsOf(file).filter(({ lines }) => lines > MOST_LINES));

  afterAll(() => {
    if (long.length)
      console.log(`Files over ${LONG} characters: ${long.map(({ file, size }) => `${file} ${size}`).join(', ')}`);
    if (tall.length)
      console.log(`Functions over ${MOST_LINES} lines: ${tall.map(({ at, lines }) => `${at} ${lines}`).join(', ')}`);
  });

  it('is told, not forbidden', () => {
    expect(files.length).toBeGreaterThan(200);
    expect(files.flatMap(functionsOf).length).toBeGreaterThan(1000);
  });
});

/** Every function of a file with the lines it takes. */
function functionsOf(file: string): { at: string; lines: number }[] {
  const source = ts.createSourceFile(file, readFileSync(join(SOURCE, file), 'utf8'), ts.ScriptTarget.Latest, true);
  const lineAt = (offset: number) => source.getLineAndCharacterOfPosition(offset).line + 1;
  const found: { at: string; lines: number }[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && 'body' in node && node.body) {
      const first = lineAt(node.getStart());
      found.push({ at: `${file}:${first}`, lines: lineAt(node.end) - first + 1 });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
