import { describe, expect, it } from 'vitest';
import { Client, pulls, waits } from './client.ts';

const SHEET = 'file:///shop/one.build.yaml';

describe('the server', () => {
  it('tells what it can do', async () => {
    const client = await Client.start();
    const { capabilities, serverInfo } = client.initialized ?? {};
    expect(serverInfo?.name).toBe('build-sheet');
    expect(capabilities).toMatchObject({
      textDocumentSync: { openClose: true, change: 2 },
      diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: true },
      hoverProvider: true,
      completionProvider: { triggerCharacters: expect.arrayContaining([' ', '{']) },
      codeActionProvider: {
        codeActionKinds: [
          'quickfix',
          'source.fixAll.buildSheet',
          'refactor.insert.buildSheet',
          'refactor.rewrite.buildSheet',
          'refactor.move.buildSheet',
          'refactor.extract.buildSheet',
          'refactor.choose.buildSheet',
        ],
      },
      documentSymbolProvider: true,
      foldingRangeProvider: true,
      documentFormattingProvider: true,
      documentRangeFormattingProvider: true,
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    });
    await client.stop();
  });

  it('offers diagnostics to be pulled only to a client that can', async () => {
    const client = await Client.start({ capabilities: waits });
    expect(client.initialized?.capabilities.diagnosticProvider).toBeUndefined();
    await client.stop();
  });

  it('ends with code 0 after shutdown, and with 1 without', async () => {
    const polite = await Client.start();
    expect(await polite.stop()).toBe(0);
    const rude = await Client.start();
    expect(await rude.exit()).toBe(1);
  });

  it.each([
    ['everything', pulls],
    ['little', waits],
    ['nothing', {}],
  ])('serves a client that tells %s of itself without complaint', async (_, capabilities) => {
    const client = await Client.start({ capabilities });
    await client.open(SHEET, 'format: 1\nengine: { cylinders: 8 }\n');
    await client.replace(SHEET, '8', '6');
    expect(await client.hover(SHEET, { line: 1, character: 12 })).not.toBeNull();
    await client.close(SHEET);
    await client.settled();
    expect(client.complaints()).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('answers for a document it does not know', async () => {
    const client = await Client.start();
    const position = { line: 3, character: 7 };
    expect(await client.pull(SHEET)).toEqual([]);
    expect(await client.hover(SHEET, position)).toBeNull();
    expect(await client.complete(SHEET, position)).toBeNull();
    expect(await client.actions(SHEET, { start: position, end: position })).toEqual([]);
    expect(await client.request('textDocument/documentSymbol', { uri: SHEET })).toEqual([]);
    expect(await client.request('textDocument/foldingRange', { uri: SHEET })).toEqual([]);
    expect(await client.request('textDocument/documentLink', { uri: SHEET })).toEqual([]);
    await client.close(SHEET);
    expect(client.complaints()).toEqual([]);
    await client.stop();
  });

  it('answers for a position outside the document', async () => {
    const client = await Client.start();
    await client.open(SHEET, 'format: 1\n');
    const position = { line: 40, character: 70 };
    expect(await client.hover(SHEET, position)).toBeNull();
    expect(Array.isArray((await client.complete(SHEET, position)).items)).toBe(true);
    expect(await client.actions(SHEET, { start: position, end: position })).toEqual([]);
    await client.stop();
  });

  it('refuses a request it does not know', async () => {
    const client = await Client.start();
    await expect(client.request('textDocument/unheardOf', { uri: SHEET })).rejects.toThrow(/Unhandled method/);
    await client.stop();
  });
});
