import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type {
  ClientCapabilities,
  DocumentHighlight,
  LinkedEditingRanges,
  Location,
  LocationLink,
  SelectionRange,
  TextDocumentEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Client, cursor, pulls, uriOf } from './client.ts';

const PLAN = `format: 1
title: Quarry wagon
fuel: { grade: gasoline-e10 }
ignition: { supply: full-voltage }
stages:
  - { name: first summer, power: 245 hp, induction: natural }
  - name: "blower"
    power: 390 hp
    induction: roots
    changes: { fuel: { grade: e85 }, ignition: { retard-per-boost: 1 deg/psi } }
  - { name: race, changes: { fuel: { grade: methanol } } }
silence:
  - { rule: paper/no-handover, reason: not yet, stage: blower }
x-feed: &hose { inside-diameter: 8 mm, length: 5 m }
fuel-system:
  feed: *hose
  return: { <<: *hose, length: 4 m }
`;

let shop: string;
let client: Client;
let sheet: string;
beforeAll(async () => {
  shop = mkdtempSync(join(tmpdir(), 'shop-'));
  client = await Client.start({
    folders: [uriOf(shop)],
    capabilities: { ...pulls, textDocument: { ...pulls.textDocument, rename: { prepareSupport: true } } },
  });
  sheet = uriOf(join(shop, 'wagon.build.yaml'));
  await client.open(sheet, PLAN);
});
afterAll(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
  rmSync(shop, { recursive: true });
});

/** Asks at the mark in some text of the sheet: `grade: ‸e85`. */
function at<Answer>(method: string, marked: string, params: object = {}): Promise<Answer> {
  const { text } = cursor(marked);
  const { start } = client.rangeOf(sheet, text);
  const before = marked.slice(0, marked.indexOf('‸'));
  const document = client.document(sheet);
  const position = document.positionAt(document.offsetAt(start) + before.length);
  return client.request(`textDocument/${method}`, { uri: sheet }, { position, ...params });
}

/** Places as the rest of their lines from there on. */
function lines(places: readonly { range: Location['range'] }[]): string[] {
  const document = client.document(sheet);
  return places.map(({ range }) => {
    const end = { line: range.start.line, character: 1000 };
    return document.getText({ start: range.start, end }).trimEnd();
  });
}

const definition = async (marked: string) => lines(await at<Location[]>('definition', marked));
const references = async (marked: string, includeDeclaration = true) =>
  lines(await at<Location[]>('references', marked, { context: { includeDeclaration } }));

describe('the definition', () => {
  it.each([
    ['of the stage a silencer names', 'stage: blo‸wer', ['blower"']],
    ['of an alias', 'feed: *ho‸se', ['hose { inside-diameter: 8 mm, length: 5 m }']],
    ['of a merge', '<<: *ho‸se', ['hose { inside-diameter: 8 mm, length: 5 m }']],
    [
      'of a stage by its own name is there',
      'name: first su‸mmer',
      ['first summer, power: 245 hp, induction: natural }'],
    ],
    ['of a value that a stage changes is the value before', 'grade: e‸85', ['gasoline-e10 }']],
    [
      'of a value that a later stage changes again is that of the stage before',
      'grade: meth‸anol',
      ['e85 }, ignition: { retard-per-boost: 1 deg/psi } }'],
    ],
    ['of the key of a change, too', 'gra‸de: e85', ['gasoline-e10 }']],
    ['of what only a stage says is where it would stand', 'retard-per‸-boost', ['ignition: { supply: full-voltage }']],
    ['of a value in the sheet is there', 'supply: full-‸voltage', ['full-voltage }']],
    ['of a comment or a title is nothing', 'title: Quarry w‸agon', []],
  ])('%s', async (_, marked, expected) => {
    expect(await definition(marked)).toEqual(expected);
  });

  it('tells a client that shows it what it goes out from', async () => {
    const capabilities: ClientCapabilities = { ...pulls, textDocument: { definition: { linkSupport: true } } };
    const other = await Client.start({ capabilities });
    await other.open(sheet, PLAN);
    const { start } = other.rangeOf(sheet, 'e85');
    const [link] = await other.request<LocationLink[]>('textDocument/definition', { uri: sheet }, { position: start });
    const text = (range: LocationLink['targetRange'] | undefined) => range && other.document(sheet).getText(range);
    expect([text(link?.originSelectionRange), text(link?.targetSelectionRange), text(link?.targetRange)]).toEqual([
      'e85',
      'gasoline-e10',
      'grade: gasoline-e10',
    ]);
    await other.stop();
  });
});

describe('later changes', () => {
  it('of a value are where stages change it, from the sheet and from a stage', async () => {
    const later = async (marked: string) => lines(await at<Location[]>('implementation', marked));
    expect(await later('grade: gaso‸line-e10')).toEqual([
      'e85 }, ignition: { retard-per-boost: 1 deg/psi } }',
      'methanol } } }',
    ]);
    expect(await later('grade: e‸85')).toEqual(['methanol } } }']);
    expect(await later('grade: meth‸anol')).toEqual([]);
  });
});

describe('uses', () => {
  it.each([
    ['of a stage', 'name: "blo‸wer"', ['blower"', 'blower }']],
    [
      'of a field',
      'grade: gaso‸line-e10',
      ['gasoline-e10 }', 'e85 }, ignition: { retard-per-boost: 1 deg/psi } }', 'methanol } } }'],
    ],
    ['of an anchor', '&ho‸se', ['hose { inside-diameter: 8 mm, length: 5 m }', 'hose', 'hose, length: 4 m }']],
  ])('%s are found', async (_, marked, expected) => {
    expect(await references(marked)).toEqual(expected);
    expect(await references(marked, false)).toEqual(expected.slice(1));
    const highlights = await at<DocumentHighlight[]>('documentHighlight', marked);
    expect(lines(highlights)).toEqual(expected);
    expect(highlights.map(({ kind }) => kind)).toEqual([3, ...expected.slice(1).map(() => 2)]);
  });
});

describe('a name', () => {
  async function renamed(marked: string, newName: string): Promise<string> {
    const edit = await at<WorkspaceEdit>('rename', marked, { newName });
    const [change] = (edit.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.textDocument).toMatchObject({ uri: sheet, version: client.document(sheet).version });
    return TextDocument.applyEdits(client.document(sheet), change?.edits as never);
  }

  it('of a stage is changed with those who refer to it, quotes kept', async () => {
    const prepared = await at<{ placeholder: string }>('prepareRename', 'stage: blo‸wer');
    expect(prepared).toMatchObject({ placeholder: 'blower' });
    const text = await renamed('stage: blo‸wer', 'roots, later');
    expect(text).toBe(PLAN.replace('"blower"', '"roots, later"').replace('stage: blower', 'stage: "roots, later"'));
  });

  it('of an anchor is changed with its aliases and merges', async () => {
    expect(await renamed('&ho‸se', 'line')).toBe(PLAN.replace('&hose', '&line').replaceAll('*hose', '*line'));
  });

  it.each([
    ['name: "blo‸wer"', 'race', 'There is a stage named "race" already.'],
    ['name: "blo‸wer"', ' ', 'A stage needs a name.'],
    ['&ho‸se', 'the line', 'The name of an anchor has no spaces, commas, brackets or braces.'],
    ['grade: e‸85', 'x', 'There is no name here that can be changed.'],
  ])('%s cannot become %j', async (marked, newName, refusal) => {
    await expect(at('rename', marked, { newName })).rejects.toThrow(refusal);
  });

  it('is offered for change only where one stands', async () => {
    expect(await at('prepareRename', 'grade: e‸85')).toBeNull();
    const plain = await Client.start({ capabilities: { textDocument: {} } });
    expect(plain.initialized?.capabilities.renameProvider).toBe(true);
    expect(client.initialized?.capabilities.renameProvider).toEqual({ prepareProvider: true });
    await plain.stop();
  });

  it('is typed in all its places at once', async () => {
    const linked = await at<LinkedEditingRanges>('linkedEditingRange', 'stage: blo‸wer');
    expect(lines(linked.ranges.map((range) => ({ range })))).toEqual(['blower"', 'blower }']);
    expect(new RegExp(`^${linked.wordPattern}$`, 'u').test('roots blower')).toBe(true);
    expect(await at('linkedEditingRange', 'grade: e‸85')).toBeNull();
  });
});

describe('selections', () => {
  it('grow from the word to the whole text', async () => {
    const document = client.document(sheet);
    const position = client.rangeOf(sheet, '245').start;
    const [selection] = await client.request<SelectionRange[]>(
      'textDocument/selectionRange',
      { uri: sheet },
      { positions: [position] },
    );
    const texts: string[] = [];
    for (let one = selection; one; one = one.parent as SelectionRange) texts.push(document.getText(one.range));
    expect(texts.slice(0, 5)).toEqual([
      '245',
      '245 hp',
      'power: 245 hp',
      ' name: first summer, power: 245 hp, induction: natural ',
      '{ name: first summer, power: 245 hp, induction: natural }',
    ]);
    expect(texts.at(-1)).toBe(PLAN);
    expect(texts.at(-2)?.startsWith('stages:')).toBe(true);
  });
});

describe('what uses a field', () => {
  it('is told on a page: figures, and those between', async () => {
    const position = client.rangeOf(sheet, '245 hp').start;
    const uses = await client.request<{ title: string; markdown: string }>(
      'buildSheet/page',
      { uri: sheet },
      { page: 'uses', position },
    );
    expect(uses.title).toBe('What uses it: Power');
    expect(uses.markdown).toMatch(/\| Fuel demand by power \| directly \| first summer \|/);
    expect(uses.markdown).toMatch(/through fuel demand by power/);
  });
});

describe('names in the folder', () => {
  const symbols = async (query: string) =>
    (await client.connection.sendRequest<WorkspaceSymbol[]>('workspace/symbol', { query })).map(
      ({ name, containerName, location }) =>
        `${name}${containerName ? ` in ${containerName}` : ''} ${location.uri.split('/').at(-1)}`,
    );

  it('are found in sheets that are open and in those that are not', async () => {
    writeFileSync(join(shop, 'van.build.yaml'), 'format: 1\ntitle: Ferry van\nstages:\n  - { name: blower }\n');
    await client.watched([{ uri: uriOf(join(shop, 'van.build.yaml')), type: 1 }]);
    expect((await symbols('blower')).toSorted()).toEqual([
      'blower in Ferry van van.build.yaml',
      'blower in Quarry wagon wagon.build.yaml',
    ]);
    expect(await symbols('qw blo')).toEqual(['blower in Quarry wagon wagon.build.yaml']);
    expect(await symbols('fervan')).toContain('Ferry van van.build.yaml');
    expect(await symbols('hose')).toEqual(['hose in Quarry wagon wagon.build.yaml']);
    expect(await symbols('no such thing')).toEqual([]);
  });
});
