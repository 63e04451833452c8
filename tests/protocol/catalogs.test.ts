import { mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type CodeAction, FileChangeType, type Hover, type Location, type WorkspaceEdit } from 'vscode-languageserver';
import { Client, codes, uriOf } from './client.ts';

const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const sheet = wagon.replace(/^ {2}pump: .*\n/m, '  pump: { use: small-110, placement: in-tank } # by phone\n');
const catalog = `format: 1
quoted: 2026-09-14
parts:
  - { id: small-110, name: small pump, cost: 91.5, pump: { flow-at: [[40 psi, 110 L/h], [75 psi, 70 L/h]], rated-voltage: 13.5 V, current: 5 A, relief-pressure: 104 psi } }
  - { id: large-240, name: large pump, cost: 171.5, pump: { flow-at: [[40 psi, 240 L/h], [75 psi, 170 L/h]], rated-voltage: 13.5 V, current: 9 A, relief-pressure: 104 psi } }
`;
const other = 'format: 1\nfuel-system: { pump: { use: small-110 } }\n';
const SHORT = 'fuel-supply/pump-flow-short';

type Picks = { title: string; picks: { label: string; edit: WorkspaceEdit }[]; missed: { label: string }[] };

let folder: string;
let client: Client;
const at = (name: string) => join(folder, name);
const [PARTS, SHEET] = ['counter.parts.yaml', 'one.build.yaml'];
const uri = () => uriOf(at(SHEET));

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'counter-'));
  writeFileSync(at('build-sheet.config.yaml'), "catalogs: ['*.parts.yaml']\ncurrency: USD\n");
  writeFileSync(at(PARTS), catalog);
  writeFileSync(at('two.build.yaml'), other);
  client = await Client.start({ folders: [uriOf(folder)] });
  await client.open(uri(), sheet);
});
afterEach(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
  rmSync(folder, { recursive: true });
});

const onUse = () => ({ position: client.rangeOf(uri(), 'small-110').start });

/** The codes of the sheet once they are as wanted; a file that changed is read without waiting. */
async function codesOnce(fits: (found: string[]) => boolean): Promise<string[]> {
  const end = Date.now() + 60_000;
  for (;;) {
    const found = codes(await client.pull(uri()));
    if (fits(found)) return found;
    if (Date.now() > end) throw new Error(`only ${found.join(', ')}`);
  }
}

describe('a sheet and the catalog it uses, over the protocol', { timeout: 120_000 }, () => {
  it('are led from one to the other, named together, and explained', async () => {
    await codesOnce((found) => found.includes('plan/part-outgrown') || found.includes(SHORT));
    const definition = await client.request<Location[]>('textDocument/definition', { uri: uri() }, onUse());
    expect(definition.map((one) => one.uri)).toEqual([uriOf(at(PARTS))]);
    const context = { includeDeclaration: true };
    const references = await client.request<Location[]>(
      'textDocument/references',
      { uri: uri() },
      { ...onUse(), context },
    );
    expect(references.map((one) => one.uri).toSorted()).toEqual(
      [uri(), uriOf(at(PARTS)), uriOf(at('two.build.yaml'))].toSorted(),
    );
    const hover = await client.request<Hover>('textDocument/hover', { uri: uri() }, onUse());
    expect(JSON.stringify(hover.contents)).toMatch(/small pump.*91\.50 USD/);
    const symbols = await client.connection.sendRequest<{ name: string }[]>('workspace/symbol', { query: 'large' });
    expect(symbols.map(({ name }) => name)).toContain('large-240');
    const renamed = await client.request<WorkspaceEdit>(
      'textDocument/rename',
      { uri: uri() },
      { ...onUse(), newName: 'wren-110' },
    );
    expect(renamed.documentChanges).toHaveLength(3);
  });

  it('are told of together: a finding stands at the id, with the catalog beside it', async () => {
    await codesOnce((found) => found.length > 0);
    const found = (await client.pull(uri())).find(({ code }) => code === SHORT || code === 'plan/part-outgrown');
    expect(found && client.document(uri()).getText(found.range)).toBe('small-110');
    expect(found?.relatedInformation?.map(({ location }) => location.uri)).toContain(uriOf(at(PARTS)));
  });

  it('choose a part from the list; what is picked is written, the finding goes, and undoing brings it back', async () => {
    await codesOnce((found) => found.includes('plan/part-outgrown') || found.includes(SHORT));
    const list = await client.request<Picks>('buildSheet/parts', { uri: uri() }, { slot: 'pump' });
    expect([list.picks.map(({ label }) => label), list.missed.map(({ label }) => label)]).toEqual([
      ['large-240'],
      ['small-110'],
    ]);
    const before = client.text(uri());
    await client.apply({ title: '', edit: list.picks[0]?.edit } as CodeAction);
    expect(client.text(uri())).toBe(before.replace('small-110', 'large-240'));
    expect(await codesOnce((found) => !found.includes(SHORT))).not.toContain('plan/part-outgrown');
    await client.replace(uri(), 'large-240', 'small-110');
    expect(client.text(uri())).toBe(before);
    await codesOnce((found) => found.includes('plan/part-outgrown') || found.includes(SHORT));
  });

  it('choose all that is open at once', async () => {
    const all = await client.request<Picks>('buildSheet/parts', { uri: uri() }, { all: true });
    expect(all).toMatchObject({ title: 'every open part', picks: [], missed: [] });
    const open = sheet.replace('{ use: small-110, placement: in-tank }', '{ placement: in-tank }');
    await client.replace(uri(), client.text(uri()), open);
    const found = await client.request<Picks>('buildSheet/parts', { uri: uri() }, { all: true });
    expect(found.picks.map(({ label }) => label)).toEqual(['1 part']);
    await client.apply({ title: '', edit: found.picks[0]?.edit } as CodeAction);
    expect(client.text(uri())).toContain('  pump: { placement: in-tank, use: large-240 } # by phone\n');
  });

  it('hold while the catalog is edited in an editor, and when it is closed unsaved', async () => {
    await codesOnce((found) => found.includes('plan/part-outgrown') || found.includes(SHORT));
    const parts = uriOf(at(PARTS));
    await client.open(parts, catalog, 'build-sheet-parts');
    await client.replace(parts, '[40 psi, 110 L/h], [75 psi, 70 L/h]', '[40 psi, 250 L/h], [75 psi, 180 L/h]');
    await codesOnce((found) => !found.includes(SHORT) && !found.includes('plan/part-outgrown'));
    await client.close(parts);
    await codesOnce((found) => found.includes(SHORT) || found.includes('plan/part-outgrown'));
  });

  it('hold while the catalog is saved, renamed and deleted elsewhere', async () => {
    await codesOnce((found) => found.includes('plan/part-outgrown') || found.includes(SHORT));
    writeFileSync(at(PARTS), catalog.replace('small-110', 'tiny-110'));
    await client.touched(uriOf(at(PARTS)));
    await codesOnce((found) => found.includes('catalog/unknown-part'));
    writeFileSync(at(PARTS), catalog);
    renameSync(at(PARTS), at('shelf.parts.yaml'));
    await client.watched([
      { uri: uriOf(at(PARTS)), type: FileChangeType.Deleted },
      { uri: uriOf(at('shelf.parts.yaml')), type: FileChangeType.Created },
    ]);
    await codesOnce((found) => !found.includes('catalog/unknown-part') && !found.includes('catalog/unreadable'));
    rmSync(at('shelf.parts.yaml'));
    await client.watched([{ uri: uriOf(at('shelf.parts.yaml')), type: FileChangeType.Deleted }]);
    await codesOnce((found) => found.includes('catalog/unreadable') && found.includes('catalog/unknown-part'));
  });
});

describe('what a busy counter asks for', { timeout: 120_000 }, () => {
  it('is answered in order while parts are tried', async () => {
    const asked = client.request<Picks>('buildSheet/parts', { uri: uri() }, { slot: 'pump' });
    const symbols = client.request<unknown[]>('textDocument/documentSymbol', { uri: uri() });
    expect((await symbols).length).toBeGreaterThan(3);
    expect((await asked).picks.length).toBe(1);
  });
});
