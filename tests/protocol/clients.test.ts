import { describe, expect, it } from 'vitest';
import type {
  ClientCapabilities,
  CodeAction,
  DocumentSymbol,
  FoldingRange,
  SymbolInformation,
  TextDocumentEdit,
} from 'vscode-languageserver';
import { Client, codes, pulls, until, waits } from './client.ts';

const SHEET = 'file:///shop/one.build.yaml';
const text = `format: 1
ignition: { supply: ballast-resistor }
fuel-system: { tank: { vent: yes }, pump: { current: 11 A } }
electrical:
  charging-voltage: 13.8 V
  pump-circuit: { wire: 12 AWG, length: 5 m, fuse: 20 A, relay: true }
stages:
  - { name: a, induction: roots, boost: 6 psi }
  - { name: b, changes: { ignition: { supply: resistance-wire } } }
vacuum-reference: { port: above-blower }
`;
const everything = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

/** What an editor says it can, but for one thing. */
function without(path: string): ClientCapabilities {
  const all: Record<string, unknown> = { ...structuredClone(pulls) };
  const steps = path.split('.');
  const last = steps.pop() as string;
  let inner = all;
  for (const step of steps) inner = inner[step] as Record<string, unknown>;
  if (!(last in inner)) throw new Error(`${path} is not announced anyway`);
  delete inner[last];
  return all;
}

async function withClient(capabilities: ClientCapabilities, tell: (client: Client) => Promise<void>): Promise<void> {
  const client = await Client.start({ capabilities });
  await client.open(SHEET, text);
  await tell(client);
  expect(client.complaints()).toEqual([]);
  expect(await client.stop()).toBe(0);
}

describe('repairs', () => {
  it('of a rule are made when they are chosen, and not before', async () => {
    await withClient(pulls, async (client) => {
      expect(client.initialized?.capabilities.codeActionProvider).toMatchObject({ resolveProvider: true });
      const [all] = (await client.actions(SHEET, everything)).filter(({ title }) => title.startsWith('Fix all of'));
      expect(all?.edit).toBeUndefined();
      const made = await client.resolve(all as CodeAction);
      expect(made.title).toBe(all?.title);
      expect(made.edit?.documentChanges).toHaveLength(1);
    });
  });

  it('without a choice are listed only where there are some, and made when chosen', async () => {
    await withClient(pulls, async (client) => {
      const listed = await client.actions(SHEET, everything, ['source.fixAll.buildSheet']);
      expect(listed.map(({ kind, edit }) => [kind, edit])).toEqual([['source.fixAll.buildSheet', undefined]]);
      await client.apply(listed[0]);
      expect(client.text(SHEET)).toContain('vent: true');
      await client.replace(SHEET, 'ballast-resistor', 'full-voltage');
    });
  });

  it('chosen in a text that has changed since are refused', async () => {
    await withClient(pulls, async (client) => {
      const [all] = (await client.actions(SHEET, everything)).filter(({ title }) => title.startsWith('Fix all of'));
      await client.replace(SHEET, 'format: 1', 'format: 1 # one');
      await expect(client.resolve(all as CodeAction)).rejects.toThrow('the text has changed');
    });
  });

  it('that do not hold, or are none of ours, change nothing', async () => {
    await withClient(pulls, async (client) => {
      const data = { uri: SHEET, version: 1, choice: { finding: 0, repair: 99, title: 'nonsense' } };
      expect((await client.resolve({ title: 'nonsense', data })).edit).toBeUndefined();
      expect((await client.resolve({ title: 'nonsense' })).edit).toBeUndefined();
    });
  });

  it.each(['textDocument.codeAction.resolveSupport', 'textDocument.codeAction.dataSupport'])(
    'come with their edits at once for a client without %s',
    async (path) => {
      await withClient(without(path), async (client) => {
        expect(client.initialized?.capabilities.codeActionProvider).toMatchObject({ resolveProvider: false });
        const actions = await client.actions(SHEET, everything);
        expect(actions.map(({ title }) => title)).toContain('Fix all of "ignition/ballast"');
        for (const { edit, data } of actions) expect([edit === undefined, data]).toEqual([false, undefined]);
        const [all] = await client.actions(SHEET, everything, ['source.fixAll']);
        await client.apply(all);
        expect(client.text(SHEET)).toContain('vent: true');
      });
    },
  );

  it('are simple edits for a client that knows no versions of documents', async () => {
    await withClient(without('workspace.workspaceEdit'), async (client) => {
      const [fix] = await client.actions(SHEET, client.rangeOf(SHEET, 'yes'));
      expect(fix?.edit?.documentChanges).toBeUndefined();
      expect(fix?.edit?.changes?.[SHEET]?.map(({ newText }) => newText)).toEqual(['true']);
    });
    await withClient(pulls, async (client) => {
      const [fix] = await client.actions(SHEET, client.rangeOf(SHEET, 'yes'));
      const [change] = (fix?.edit?.documentChanges ?? []) as TextDocumentEdit[];
      expect(change?.textDocument).toEqual({ uri: SHEET, version: 1 });
    });
  });

  it('are not announced to a client that knows commands only', async () => {
    await withClient(without('textDocument.codeAction'), async (client) => {
      expect(client.initialized?.capabilities.codeActionProvider).toBeUndefined();
    });
  });
});

describe('diagnostics', () => {
  it('have what the client can show, and nothing more', async () => {
    const keys = async (capabilities: ClientCapabilities) => {
      let found: object | undefined;
      await withClient(capabilities, async (client) => {
        found = (await client.pull(SHEET)).find(({ code }) => code === 'vacuum/reference-above-blower');
      });
      return Object.keys(found ?? {}).toSorted();
    };
    const all = ['code', 'codeDescription', 'data', 'message', 'range', 'relatedInformation', 'severity', 'source'];
    expect(await keys(pulls)).toEqual(all);
    expect(await keys(without('textDocument.publishDiagnostics.relatedInformation'))).not.toContain(
      'relatedInformation',
    );
    expect(await keys(without('textDocument.publishDiagnostics.codeDescriptionSupport'))).not.toContain(
      'codeDescription',
    );
  });

  it('are published without a version to a client that knows none', async () => {
    await withClient({}, async (client) => {
      const { version, diagnostics } = await client.publishedFor(SHEET, () => true);
      expect(version).toBeUndefined();
      expect(codes(diagnostics)).toContain('ignition/ballast');
    });
  });

  it('are pulled again without being asked to by a client that cannot be asked', async () => {
    await withClient(without('workspace.diagnostics'), async (client) => {
      await client.open('file:///shop/build-sheet.config.yaml', 'units: si\n', 'build-sheet-config');
      await client.settled();
      expect(client.refreshes).toBe(0);
    });
  });

  it('follow a house file that is saved, for a client that watches no files', async () => {
    await withClient(without('workspace.didChangeWatchedFiles'), async (client) => {
      expect(client.initialized?.capabilities.textDocumentSync).toMatchObject({ save: true });
      expect(client.registered).toEqual([]);
    });
    await withClient(waits, async (client) => {
      expect(client.initialized?.capabilities.textDocumentSync).toMatchObject({ save: false });
      await until(() => client.registered.length > 0);
    });
  });
});

describe('what is read', () => {
  it('is plain text for a client that shows no Markdown', async () => {
    await withClient(without('textDocument.hover'), async (client) => {
      const hover = await client.hover(SHEET, client.rangeOf(SHEET, 'port').start);
      expect(hover?.contents).toMatchObject({ kind: 'plaintext', value: expect.not.stringMatching(/\*\*|`/) });
    });
    await withClient(without('textDocument.completion.completionItem.documentationFormat'), async (client) => {
      const [item] = (await client.complete(SHEET, client.rangeOf(SHEET, 'ballast-resistor').start)).items;
      expect(item?.documentation).toMatchObject({ kind: 'plaintext' });
    });
  });

  it('is an outline without branches for a client that shows none', async () => {
    const outline = <Item>(client: Client) => client.request<Item[]>('textDocument/documentSymbol', { uri: SHEET });
    await withClient(without('textDocument.documentSymbol'), async (client) => {
      const items = await outline<SymbolInformation>(client);
      expect(items.find(({ name }) => name === 'wire')).toMatchObject({
        containerName: 'pump-circuit',
        location: { uri: SHEET, range: { start: client.rangeOf(SHEET, 'wire').start } },
      });
    });
    await withClient(pulls, async (client) => {
      expect((await outline<DocumentSymbol>(client)).map(({ name }) => name)).toContain('electrical');
    });
  });

  it('folds no more than the client takes', async () => {
    await withClient({ textDocument: { foldingRange: { rangeLimit: 1 } } }, async (client) => {
      const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', { uri: SHEET });
      expect(folds).toHaveLength(1);
    });
  });

  it('is only what is ours: other texts get nothing', async () => {
    await withClient(pulls, async (client) => {
      const other = 'file:///shop/compose.yaml';
      await client.open(other, 'format: 7\n', 'yaml');
      expect(await client.pull(other)).toEqual([]);
      await client.replace(other, '7', '8');
      await client.close(other);
    });
  });

  it('is the same for a text not saved yet, the old side of a difference and an upper-case name', async () => {
    await withClient(pulls, async (client) => {
      for (const [uri, language] of [
        ['untitled:Untitled-1', 'build-sheet'],
        [
          'git:/shop/one.build.yaml?%7B%22path%22%3A%22%2Fshop%2Fone.build.yaml%22%2C%22ref%22%3A%22~%22%7D',
          'build-sheet',
        ],
        ['file:///shop/ONE.BUILD.YAML', 'yaml'],
      ] as const) {
        await client.open(uri, text, language);
        expect(codes(await client.pull(uri)), uri).toContain('ignition/ballast');
      }
    });
  });
});
