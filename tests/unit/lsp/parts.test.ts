import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CodeAction, CompletionList, Hover, Location, WorkspaceEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Host } from '../../../server/src/lsp/session.ts';
import { Service } from '../../../server/src/service.ts';
import type { File } from '../../../server/src/workspace/workspace.ts';
import { InProcess } from './in-process.ts';

const HOUSE = 'file:///shop/build-sheet.config.yaml';
const PARTS = 'file:///shop/shelf.parts.yaml';
const SHEET = 'file:///shop/one.build.yaml';
const OTHER = 'file:///shop/below/two.build.yaml';

const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const sheet = wagon.replace(
  /^ {2}pump: .*\n/m,
  '  pump: { use: small-110, placement: in-tank } # asked for on the phone\n',
);
const catalog = `format: 1
quoted: 2026-09-14
parts:
  - { id: small-110, name: small pump, cost: 91.5, pump: { flow-at: [[40 psi, 110 L/h], [75 psi, 70 L/h]], rated-voltage: 13.5 V, current: 5 A, relief-pressure: 104 psi } }
  - { id: large-240, name: large pump, cost: 171.5, pump: { flow-at: [[40 psi, 240 L/h], [75 psi, 170 L/h]], rated-voltage: 13.5 V, current: 9 A, relief-pressure: 104 psi } }
  - { id: reg-52, cost: 61.5, regulator: { pressure: 52 psi, style: bypass } }
kits:
  - { id: pump-kit, brings: { pump: small-110 } }
`;
const other =
  'format: 1\n# small-110 in a comment stays\nstages: [{ name: now, changes: { fuel-system: { pump: { use: small-110 } } } }]\n';

async function client(files: Record<string, string> = {}): Promise<InProcess> {
  const all: Record<string, string> = {
    [HOUSE]: 'catalogs: ["*.parts.yaml"]\n',
    [PARTS]: catalog,
    [OTHER]: other,
    ...files,
  };
  const given = new Map<string, File>(Object.entries(all).map(([uri, text]) => [uri, { kind: 'text', text }]));
  const read = async (uri: string) => given.get(uri) ?? ({ kind: 'absent' } as const);
  const host: Host = {
    holds: () => true,
    read,
    readOnce: read,
    search: async () => [PARTS],
    find: async () => ({ uris: [...given.keys()], complaints: [] }),
    pageOf: () => undefined,
  };
  const capabilities = {
    workspace: { workspaceEdit: { documentChanges: true } },
    textDocument: { codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } } },
  };
  const started = await InProcess.start(new Service(), host, capabilities);
  await started.connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri: SHEET, languageId: 'build-sheet', version: 1, text: sheet },
  });
  return started;
}

const at = (text: string, word: string, shift = 1) =>
  TextDocument.create('', '', 0, text).positionAt(text.indexOf(word) + shift);
const about = { textDocument: { uri: SHEET }, position: at(sheet, 'small-110') };

/** A text with the edits for it made. */
function applied(edit: WorkspaceEdit, uri: string, text: string): string {
  const changes = (edit.documentChanges ?? []).flatMap((one) =>
    'edits' in one && one.textDocument.uri === uri ? one.edits : [],
  );
  return TextDocument.applyEdits(TextDocument.create(uri, '', 0, text), changes as never);
}

describe('a part that a sheet names, over several files', () => {
  it('is gone to where its catalog gives it', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    const [found] = await connection.sendRequest<Location[]>('textDocument/definition', about);
    expect(found?.uri).toBe(PARTS);
    expect(found?.range.start).toEqual(at(catalog, 'small-110', 0));
  });

  it('is found wherever it is used, in files that are not open as well', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    const params = { ...about, context: { includeDeclaration: true } };
    const found = await connection.sendRequest<Location[]>('textDocument/references', params);
    expect(found.map(({ uri }) => uri).toSorted()).toEqual([OTHER, SHEET, PARTS, PARTS].toSorted());
  });

  it('is renamed everywhere but in comments', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    const edit = await connection.sendRequest<WorkspaceEdit>('textDocument/rename', { ...about, newName: 'wren-110' });
    expect(applied(edit, SHEET, sheet)).toBe(sheet.replace('small-110', 'wren-110'));
    expect(applied(edit, PARTS, catalog)).toBe(catalog.replaceAll('small-110', 'wren-110'));
    expect(applied(edit, OTHER, other)).toBe(other.replace('use: small-110', 'use: wren-110'));
  });

  it.each([
    ['large-240', /There is "large-240" already/],
    ['two words', /letters, digits/],
  ])('is not renamed to %s', async (newName, told) => {
    const { connection } = await client();
    await expect(connection.sendRequest('textDocument/rename', { ...about, newName })).rejects.toThrow(told);
  });

  it('is not renamed while a file that may name it cannot be read whole', { timeout: 60_000 }, async () => {
    const { connection } = await client({ [OTHER]: `${other}broken: [\n` });
    await expect(connection.sendRequest('textDocument/rename', { ...about, newName: 'wren-110' })).rejects.toThrow(
      /two\.build\.yaml, which cannot be read whole/,
    );
  });

  it('is explained on hover, with what the sheet says itself', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    const hover = await connection.sendRequest<Hover>('textDocument/hover', about);
    const text = JSON.stringify(hover.contents);
    expect(text).toContain('small pump');
    expect(text).toContain('91.50');
    expect(text).toContain('5 A');
  });

  it('is completed with its price and the figures that matter, by its kind', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    const text = sheet.replace('use: small-110', 'use: ');
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: SHEET, version: 2 },
      contentChanges: [{ text }],
    });
    await connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri: SHEET } });
    await connection.sendRequest('textDocument/hover', {
      textDocument: { uri: SHEET },
      position: { line: 3, character: 2 },
    });
    const list = await connection.sendRequest<CompletionList>('textDocument/completion', {
      textDocument: { uri: SHEET },
      position: at(text, 'pump: { use: ', 13),
    });
    expect(list.items.map(({ label, detail }) => [label, detail])).toEqual([
      ['small-110', '110 L/h at 40 psi, 5 A, 91.50'],
      ['large-240', '240 L/h at 40 psi, 9 A, 171.50'],
    ]);
  });
});

describe('choosing a part for a slot', () => {
  it('writes its id, takes out what it replaces and keeps the comment, and the finding is gone', {
    timeout: 60_000,
  }, async () => {
    const { connection } = await client();
    const actions = await connection.sendRequest<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: SHEET },
      range: { start: about.position, end: about.position },
      context: { diagnostics: [], only: ['refactor'] },
    });
    const choice = actions.find(({ title }) => title.startsWith('Use large-240'));
    expect(choice?.title).toMatch(/^Use large-240 \(171\.50; least margin \d+ %; best at cost/);
    const after = applied(choice?.edit ?? {}, SHEET, sheet);
    expect(after).toBe(sheet.replace('small-110', 'large-240'));
  });

  it('lists what does it, and why the rest does not', { timeout: 60_000 }, async () => {
    const { connection } = await client();
    type Picks = {
      picks: { label: string; figures: string; edit: WorkspaceEdit }[];
      missed: { label: string; detail: string }[];
    };
    const found = await connection.sendRequest<Picks>('buildSheet/parts', {
      textDocument: { uri: SHEET },
      slot: 'pump',
    });
    expect(found.picks.map(({ label, figures }) => [label, figures])).toEqual([
      ['large-240', '240 L/h at 40 psi, 9 A'],
    ]);
    expect(found.missed.map(({ label }) => label)).toEqual(['small-110']);
    expect(found.missed[0]?.detail).toMatch(/L\/h/);
    const plain = await connection.sendRequest<Picks>('buildSheet/parts', {
      textDocument: { uri: SHEET },
      slot: 'regulator',
    });
    const after = applied(plain.picks[0]?.edit ?? {}, SHEET, sheet);
    expect(after).toContain('  regulator: { reference: atmosphere, use: reg-52 }\n');
  });
});
