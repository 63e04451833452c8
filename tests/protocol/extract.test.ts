import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ClientCapabilities, CodeAction, CreateFile, InlayHint, TextDocumentEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Client, codes, cursor, pulls, uriOf, written } from './client.ts';

const CONFIG = 'build-sheet.config.yaml';
const creates: ClientCapabilities = {
  ...pulls,
  workspace: { ...pulls.workspace, workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
};

let shop: string;
let client: Client;
beforeEach(() => {
  shop = mkdtempSync(join(tmpdir(), 'shop-'));
});
afterEach(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
  rmSync(shop, { recursive: true });
});

const write = (path: string, text: string) => written(shop, path, text);

const read = (path: string) => readFileSync(join(shop, path), 'utf8');

/** Opens a sheet whose cursor is marked; its address and what can be made a part there. */
async function offered(marked: string, capabilities = creates): Promise<{ sheet: string; actions: CodeAction[] }> {
  client = await Client.start({ folders: [uriOf(shop)], capabilities });
  const { text, position } = cursor(marked);
  const sheet = uriOf(join(shop, 'one.build.yaml'));
  await client.open(sheet, text);
  const actions = await client.actions(sheet, { start: position, end: position }, ['refactor.extract']);
  return { sheet, actions };
}

/** Applies an action to the open sheet and to files, as an editor does that saves what it changes unopened. */
async function apply(sheet: string, action: CodeAction | undefined): Promise<void> {
  const touched: string[] = [];
  for (const change of (action?.edit?.documentChanges ?? []) as (CreateFile | TextDocumentEdit)[]) {
    if ('kind' in change) {
      if (existsSync(fileURLToPath(change.uri))) throw new Error(`${change.uri} is there`);
      writeFileSync(fileURLToPath(change.uri), '');
      touched.push(change.uri);
      continue;
    }
    const { uri, version } = change.textDocument;
    const edits = change.edits as { range: CodeAction['edit'] & never; newText: string }[];
    if (uri === sheet) {
      expect(version).toBe(1);
      await client.change(uri, edits);
    } else {
      expect(version).toBeNull();
      const file = fileURLToPath(uri);
      const document = TextDocument.create(uri, '', 0, readFileSync(file, 'utf8'));
      writeFileSync(file, TextDocument.applyEdits(document, edits));
      touched.push(uri);
    }
  }
  await client.touched(...touched);
}

const SHEET = `format: 2
fuel-system:
  # what hums under the seat
  pump: # bought used
    # from the yard
    name: Heron 58 (in tank) # its sticker
    cost: 214.5
    placement: in-tank # behind the sender
    # measured on the bench
    flow-at: [[40 psi, 270 L/h], [60 psi, 225 L/h]] # warm
      # and cold the same
    rated-voltage‸: 13.5 V
    # what it draws is not known
  return: { inside-diameter: 8 mm }
`;

describe('a section made a part', () => {
  it('goes into the catalog of the house with its comments, and the sheet names it', async () => {
    write(CONFIG, "catalogs: ['*.parts.yaml']\n");
    write('shelf.parts.yaml', 'format: 1\nparts:\n  - id: other # kept\n    pump: { current: 9 A }\n\n# the end\n');
    const { sheet, actions } = await offered(SHEET);
    const before = codes(await client.pull(sheet));
    expect(actions.map(({ title }) => title)).toEqual(['Make it the part "heron-58-in-tank" of "shelf.parts.yaml"']);
    expect(actions[0]?.kind).toBe('refactor.extract.buildSheet');
    await apply(sheet, actions[0]);
    expect(client.text(sheet)).toBe(`format: 2
fuel-system:
  # what hums under the seat
  pump: # bought used
    use: heron-58-in-tank
    placement: in-tank # behind the sender
    # what it draws is not known
  return: { inside-diameter: 8 mm }
`);
    expect(read('shelf.parts.yaml')).toBe(`format: 1
parts:
  - id: other # kept
    pump: { current: 9 A }
  - id: heron-58-in-tank
    # from the yard
    name: Heron 58 (in tank) # its sticker
    cost: 214.5
    pump:
      # measured on the bench
      flow-at: [[40 psi, 270 L/h], [60 psi, 225 L/h]] # warm
        # and cold the same
      rated-voltage: 13.5 V

# the end
`);
    expect(codes(await client.pull(sheet))).toEqual(['catalog/price-old', ...before]);
  });

  it('begins a catalog, and house rules that name it, where there are none', async () => {
    const { sheet, actions } = await offered(SHEET);
    expect(actions.map(({ title }) => title)).toEqual([
      'Make it the part "heron-58-in-tank" of a new catalog, "shop.parts.yaml"',
    ]);
    await apply(sheet, actions[0]);
    expect(read(CONFIG)).toBe('catalogs: ["shop.parts.yaml"]\n');
    expect(read('shop.parts.yaml')).toMatch(/^format: 1\nparts:\n {2}- id: heron-58-in-tank\n/);
    expect(codes(await client.pull(sheet))).not.toContain('catalog/unknown-part');
  });

  it('is named in the house rules there are, their comments kept', async () => {
    write(CONFIG, '# ours\nunits: si # as always\n');
    const { sheet, actions } = await offered(SHEET);
    await apply(sheet, actions[0]);
    expect(read(CONFIG)).toBe('# ours\nunits: si # as always\ncatalogs: [shop.parts.yaml]\n');
    expect(codes(await client.pull(sheet))).not.toContain('catalog/unknown-part');
  });

  it('in braces stays in braces, and gets an id of its own', async () => {
    write(CONFIG, "catalogs: ['*.parts.yaml']\n");
    write('shelf.parts.yaml', 'format: 1\r\nparts:\r\n- id: tank\r\n  pump: { current: 9 A }');
    const { sheet, actions } = await offered(
      'format: 2\nfuel-system: { tank: { vent‸: true }, regulator: { pressure: 58 psi } }\n',
    );
    await apply(sheet, actions[0]);
    expect(client.text(sheet)).toBe(
      'format: 2\nfuel-system: { tank: { use: tank-2 }, regulator: { pressure: 58 psi } }\n',
    );
    expect(read('shelf.parts.yaml')).toBe(
      'format: 1\r\nparts:\r\n- id: tank\r\n  pump: { current: 9 A }\r\n- id: tank-2\r\n  tank:\r\n    vent: true\r\n',
    );
  });

  it('in braces keeps the comment behind them', async () => {
    write(CONFIG, "catalogs: ['*.parts.yaml']\n");
    write('shelf.parts.yaml', 'format: 1\nparts:\n  - id: other\n    pump: { current: 8 A }\n');
    const { sheet, actions } = await offered(
      'format: 2\nfuel-system:\n  pump: { placement: in-tank, current‸: 9 A } # by phone\n  return: { length: 4 m }\n',
    );
    await apply(sheet, actions[0]);
    expect(client.text(sheet)).toBe(
      'format: 2\nfuel-system:\n  pump: { use: pump, placement: in-tank } # by phone\n  return: { length: 4 m }\n',
    );
  });

  it('is not offered where it would not say the same, or is no part', async () => {
    client = await Client.start({ folders: [uriOf(shop)], capabilities: creates });
    const marked = {
      'names a part': 'format: 2\nfuel-system:\n  pump:\n    use: other\n    current‸: 9 A\n',
      'only tells how it is fitted': 'format: 2\nfuel-system:\n  pump:\n    placement‸: in-tank\n',
      'something of it stands elsewhere':
        'format: 2\nfuel-system:\n  pump:\n    current‸: &amps 9 A\n  lift-pump: { current: *amps }\n',
      'comes from elsewhere':
        'format: 2\nx-a: &a { current: 9 A }\nfuel-system:\n  pump:\n    <<: *a\n    rated-voltage‸: 13 V\n',
      'in a stage':
        'format: 2\nstages:\n  - name: now\n    changes:\n      fuel-system:\n        pump:\n          current‸: 9 A\n',
      'no part': 'format: 2\nengine:\n  cylinders‸: 8\n',
    };
    for (const [what, text] of Object.entries(marked)) {
      const sheet = uriOf(join(shop, `${what}.build.yaml`));
      const { text: plain, position } = cursor(text);
      await client.open(sheet, plain);
      const actions = await client.actions(sheet, { start: position, end: position }, ['refactor.extract']);
      expect([what, actions]).toEqual([what, []]);
    }
  });

  it.each([
    ['brackets with nothing in them', 'format: 1\nparts: [] # none yet\n', 'format: 1\nparts: # none yet\n'],
    ['nothing under its parts', 'format: 1\nparts:\n', 'format: 1\nparts:\n'],
    ['a word for nothing', 'format: 1\nparts: ~\nkits: []\n', 'format: 1\nparts:\n', 'kits: []\n'],
    [
      'comments alone',
      'format: 1\nparts:\n  # - id: to-come\n\nkits: []\n',
      'format: 1\nparts:\n  # - id: to-come\n',
      '\nkits: []\n',
    ],
    ['no parts', 'format: 1\n# by phone\n', 'format: 1\n# by phone\nparts:\n'],
    ['no end of its last line', 'format: 1\nparts:', 'format: 1\nparts:\n'],
    ['another line end', 'format: 1\r\nparts: []\r\n', 'format: 1\r\nparts:\r\n'],
    ['nothing at all', '', 'format: 1\nparts:\n'],
    [
      'parts in brackets',
      'format: 1\nparts: [{ id: a, pump: { current: 8 A } }]',
      'format: 1\nparts:\n  - { id: a, pump: { current: 8 A } }\n',
    ],
  ])('goes into an unopened catalog with %s', async (_, catalog, before, after = '') => {
    write(CONFIG, "catalogs: ['*.parts.yaml']\n");
    write('shelf.parts.yaml', catalog);
    const { sheet, actions } = await offered('format: 2\nfuel-system: { pump: { current‸: 9 A } }\n');
    await apply(sheet, actions[0]);
    const eol = before.includes('\r\n') ? '\r\n' : '\n';
    const item = ['  - id: pump', '    pump:', '      current: 9 A', ''].join(eol);
    expect(read('shelf.parts.yaml')).toBe(before + item + after);
    expect(codes(await client.pull(sheet))).not.toContain('catalog/unknown-part');
  });

  it('is offered for each catalog that the house rules name, in their order', async () => {
    write(CONFIG, 'catalogs: [ours.parts.yaml, theirs.parts.yaml]\n');
    write('ours.parts.yaml', 'format: 1\nparts: []\n');
    write('theirs.parts.yaml', 'format: 1\n');
    const { sheet, actions } = await offered(SHEET);
    expect(actions.map(({ title }) => title)).toEqual([
      'Make it the part "heron-58-in-tank" of "ours.parts.yaml"',
      'Make it the part "heron-58-in-tank" of "theirs.parts.yaml"',
    ]);
    await apply(sheet, actions[1]);
    expect(read('ours.parts.yaml')).toBe('format: 1\nparts: []\n');
    expect(codes(await client.pull(sheet))).not.toContain('catalog/unknown-part');
  });

  it('needs a client that begins files only where there is no catalog', async () => {
    expect((await offered(SHEET, pulls)).actions).toEqual([]);
    await client.stop();
    write(CONFIG, 'catalogs: [shelf.parts.yaml]\n');
    write('shelf.parts.yaml', 'format: 1\n');
    const plain: ClientCapabilities = { ...pulls, workspace: { workspaceFolders: true } };
    const { sheet, actions } = await offered(SHEET, plain);
    expect(Object.keys(actions[0]?.edit?.changes ?? {})).toEqual([uriOf(join(shop, 'shelf.parts.yaml')), sheet]);
  });
});

describe('a hint', () => {
  it('tells beside `use` what the part brings', async () => {
    write('parts/one.parts.yaml', 'format: 1\nparts:\n  - id: hum\n    name: Hummer\n    pump: { current: 9 A }\n');
    const settings = { catalogs: 'parts', hints: true };
    client = await Client.start({ folders: [uriOf(shop)], options: { settings } });
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, 'format: 2\nfuel-system:\n  pump: { use: hum, placement: in-tank }\n');
    const range = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { uri: sheet }, { range });
    const hint = hints.find(({ position }) => position.character === '  pump: { use: hum'.length);
    expect(hint).toMatchObject({ label: 'Hummer, 9 A', tooltip: 'current: 9 A\nname: Hummer' });
  });
});

describe('catalogs of the settings', () => {
  it.each([['parts'], [['parts/*.parts.yaml']]])('hold where no house rules name any: %j', async (catalogs) => {
    write('parts/one.parts.yaml', 'format: 1\nparts:\n  - id: hum\n    pump: { current: 9 A }\n');
    client = await Client.start({ folders: [uriOf(shop)], options: { settings: { catalogs } } });
    const sheet = uriOf(join(shop, 'cars', 'one.build.yaml'));
    await client.open(sheet, 'format: 2\nfuel-system:\n  pump: { use: hum }\n');
    expect(codes(await client.pull(sheet))).not.toContain('catalog/unknown-part');
  });

  it('go behind those of house rules', async () => {
    write('parts/one.parts.yaml', 'format: 1\nparts:\n  - id: hum\n    pump: { current: 9 A }\n');
    write('own.parts.yaml', 'format: 1\n');
    write(CONFIG, 'catalogs: [own.parts.yaml]\n');
    client = await Client.start({ folders: [uriOf(shop)], options: { settings: { catalogs: ['parts'] } } });
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, 'format: 2\nfuel-system:\n  pump: { use: hum }\n');
    expect(codes(await client.pull(sheet))).toContain('catalog/unknown-part');
  });
});
