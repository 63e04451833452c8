import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type CancellationToken, CancellationTokenSource } from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  PreviousResultId,
  WorkspaceDiagnosticReport,
  WorkspaceFullDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { Client, codes, pulls, until, uriOf, waits, written } from './client.ts';

const points = 'format: 1\nignition: { trigger: contact-points }\n';
const sound = 'format: 1\nignition: { trigger: magnetic-pickup }\n';
const asWarning = 'rules: { ignition/contact-points: { severity: warning } }\n';

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

async function start(capabilities: ClientCapabilities = pulls): Promise<void> {
  client = await Client.start({ folders: [uriOf(shop)], capabilities });
}

type Full = WorkspaceFullDocumentDiagnosticReport;

/** Asks for everything in the folder, as a client that knows these results. */
async function ask(
  previousResultIds: PreviousResultId[] = [],
  partialResultToken?: string,
  token?: CancellationToken,
): Promise<Full[]> {
  const params = { previousResultIds, ...(partialResultToken && { partialResultToken }) };
  const answer = token
    ? client.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', params, token)
    : client.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', params);
  return (await answer).items as Full[];
}

const idsOf = (reports: readonly Full[]): PreviousResultId[] =>
  reports.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' }));

/** What a client knows after further reports. */
function withNews(known: readonly PreviousResultId[], reports: readonly Full[]): PreviousResultId[] {
  return [...new Map([...known, ...idsOf(reports)].map((id) => [id.uri, id])).values()];
}

const found = (reports: readonly Full[], uri: string) => codes(reports.find((one) => one.uri === uri)?.items ?? []);

/** Whether a promise is still open after everything sent before was worked off. */
async function isHeld(answer: Promise<unknown>): Promise<boolean> {
  let isOpen = true;
  answer.finally(() => {
    isOpen = false;
  });
  await client.settled();
  await new Promise((done) => setTimeout(done, 300));
  return isOpen;
}

describe('everything in the folder', () => {
  it('is announced to a client that pulls, and tells what is wrong in sheets and house rules that nobody has opened', async () => {
    const bad = write('one.build.yaml', points);
    const good = write('deep/er/two.build.yml', sound);
    const house = write('build-sheet.config.yaml', 'rules: { no/such: { severity: hint } }\n');
    write('node_modules/other/three.build.yaml', points);
    write('notes.yaml', points);
    await start();
    expect(client.initialized?.capabilities.diagnosticProvider).toMatchObject({ workspaceDiagnostics: true });
    const reports = await ask();
    expect(reports.map(({ uri }) => uri).toSorted()).toEqual([house, good, bad].toSorted());
    expect(found(reports, bad)).toContain('ignition/contact-points');
    expect(found(reports, good)).not.toContain('ignition/contact-points');
    expect(found(reports, house)).toEqual(['house/unknown-rule']);
    expect(reports.every(({ version, resultId }) => version === null && resultId)).toBe(true);
  });

  it('goes by the house rules of each folder', async () => {
    const near = write('near/one.build.yaml', points);
    const far = write('far/one.build.yaml', points);
    write('near/build-sheet.config.yaml', asWarning);
    await start();
    const reports = await ask();
    const severity = (uri: string) =>
      reports.find((one) => one.uri === uri)?.items.find(({ code }) => code === 'ignition/contact-points')?.severity;
    expect([severity(near), severity(far)]).toEqual([2, 1]);
  });

  it('is held back while there are no news, and only what has changed is told then', async () => {
    const one = write('one.build.yaml', points);
    write('two.build.yaml', points);
    await start();
    const known = idsOf(await ask());
    expect(known).toHaveLength(2);
    const next = ask(known);
    expect(await isHeld(next)).toBe(true);
    write('one.build.yaml', sound);
    await client.touched(one);
    const news = await next;
    expect(news.map(({ uri }) => uri)).toEqual([one]);
    expect(found(news, one)).not.toContain('ignition/contact-points');
    const later = ask(withNews(known, news));
    await client.touched(one);
    expect(await isHeld(later), 'a file that was written as it was is no news').toBe(true);
    write('two.build.yaml', sound);
    await client.touched(uriOf(join(shop, 'two.build.yaml')));
    await later;
  });

  it('follows files that come and go', async () => {
    const one = write('one.build.yaml', points);
    await start();
    const known = idsOf(await ask());
    const coming = ask(known);
    const two = write('later/two.build.yaml', points);
    await client.watched([{ uri: two, type: 1 }]);
    const came = await coming;
    expect(found(came, two)).toContain('ignition/contact-points');
    const going = ask(withNews(known, came));
    rmSync(join(shop, 'one.build.yaml'));
    await client.watched([{ uri: one, type: 3 }]);
    expect(await going).toMatchObject([{ uri: one, items: [] }]);
  });

  it('follows folders that come and go, of which no watcher tells the files', async () => {
    const one = write('old/one.build.yaml', points);
    await start();
    const next = ask(idsOf(await ask()));
    rmSync(join(shop, 'old'), { recursive: true });
    await client.connection.sendNotification('workspace/didDeleteFiles', {
      files: [{ uri: uriOf(join(shop, 'old')) }],
    });
    expect(await next).toMatchObject([{ uri: one, items: [] }]);
  });

  it('is checked again by other house rules only where they hold', async () => {
    const near = write('near/one.build.yaml', points);
    write('far/one.build.yaml', points);
    await start();
    const next = ask(idsOf(await ask()));
    const house = write('near/build-sheet.config.yaml', asWarning);
    await client.watched([{ uri: house, type: 1 }]);
    const news = await next;
    expect(news.map(({ uri }) => uri).toSorted()).toEqual([house, near].toSorted());
    const later = ask(withNews(idsOf(await ask()), news));
    await client.open(house, 'rules: { ignition/contact-points: { severity: hint } }\n', 'build-sheet-config');
    const then = await later;
    expect(then.find(({ uri }) => uri === near)?.items.map(({ severity }) => severity)).toContain(4);
  });

  it('tells of an open sheet what stands in the editor, and of a closed one what stands on disk', async () => {
    const one = write('one.build.yaml', points);
    await start();
    const known = idsOf(await ask());
    const opened = ask(known);
    await client.open(one, sound);
    const edited = await opened;
    expect(edited).toMatchObject([{ uri: one, version: 1 }]);
    expect(found(edited, one)).not.toContain('ignition/contact-points');
    const closed = ask(withNews(known, edited));
    await client.close(one);
    expect(codes(await client.pull(one)), 'a client that asks once more when it closes').toContain(
      'ignition/contact-points',
    );
    expect(found(await closed, one)).toContain('ignition/contact-points');
  });

  it('comes in parts to a client that takes them so', async () => {
    for (let number = 0; number < 30; number++) write(`${number}.build.yaml`, points);
    await start();
    const parts: Full[] = [];
    client.connection.onNotification('$/progress', ({ token, value }: { token: string; value: { items: Full[] } }) => {
      if (token === 'in parts') parts.push(...value.items);
    });
    expect(await ask([], 'in parts')).toEqual([]);
    expect(new Set(parts.map(({ uri }) => uri)).size).toBe(30);
    expect(parts.every(({ items }) => codes(items).includes('ignition/contact-points'))).toBe(true);
  });

  it('can be given up, while it is worked out and while it is held back', async () => {
    for (let number = 0; number < 200; number++) write(`${number}.build.yaml`, points);
    await start();
    const early = new CancellationTokenSource();
    const working = ask([], undefined, early.token).catch(({ code }) => code);
    early.cancel();
    expect(await working).toBe(-32800);
    const known = idsOf(await ask());
    expect(known).toHaveLength(200);
    const late = new CancellationTokenSource();
    const held = ask(known, undefined, late.token).catch(({ code }) => code);
    expect(await isHeld(held)).toBe(true);
    late.cancel();
    expect(await held).toBe(-32800);
  });

  it('is shown while it takes its time, and can be stopped there until something changes', async () => {
    for (let number = 0; number < 400; number++) write(`${number}.build.yaml`, points);
    let token: string | undefined;
    const messages: string[] = [];
    const kinds: string[] = [];
    client = await Client.start(
      { folders: [uriOf(shop)], capabilities: { ...pulls, window: { workDoneProgress: true } } },
      (connection) => {
        connection.onRequest('window/workDoneProgress/create', (params: { token: string }) => {
          token = params.token;
          return null;
        });
        connection.onNotification('window/showMessage', ({ message }) => {
          messages.push(message);
        });
        connection.onNotification('$/progress', (params: { token: string; value: { kind: string } }) => {
          if (params.token !== token) return;
          kinds.push(params.value.kind);
          if (params.value.kind === 'report') connection.sendNotification('window/workDoneProgress/cancel', { token });
        });
      },
    );
    const some = await ask();
    if (token === undefined) {
      expect(some).toHaveLength(400);
      return;
    }
    await until(() => kinds.includes('end'));
    expect(kinds[0]).toBe('begin');
    expect(messages).toEqual([expect.stringMatching(/^Build Sheet: \d+ files are not checked\./)]);
    const rest = ask(idsOf(some));
    await client.touched(uriOf(join(shop, '0.build.yaml')));
    expect(some.length + (await rest).length).toBeGreaterThan(some.length);
  });

  it('tells what could not be read', async () => {
    const huge = write('huge.build.yaml', `title: ${'x'.repeat(4_000_001)}\n`);
    const latin = write('latin.build.yaml', '');
    writeFileSync(join(shop, 'latin.build.yaml'), Buffer.from([0x74, 0x3a, 0x20, 0xe9]));
    await start();
    const reports = await ask();
    expect(reports.find(({ uri }) => uri === huge)?.items[0]?.message).toMatch(
      /^This file was not checked: it is larger/,
    );
    expect(reports.find(({ uri }) => uri === latin)?.items[0]?.message).toMatch(
      /^This file was not checked: it is not UTF-8/,
    );
    expect(found(reports, huge)).toEqual(['sheet/unreadable']);
  });

  it('is nothing in a folder without sheets, and without a folder', async () => {
    for (let number = 0; number < 1000; number++) write(`other/${number}.yaml`, points);
    await start();
    expect(await ask()).toEqual([]);
    const first = write('first.build.yaml', points);
    const next = ask();
    await client.watched([{ uri: first, type: 1 }]);
    expect((await next).map(({ uri }) => uri)).toEqual([first]);
  });
});

describe('one sheet', () => {
  it('that is asked for again with the result it gave is not told again', async () => {
    const one = write('one.build.yaml', points);
    await start();
    await client.open(one, points);
    const first = await client.request<{ resultId: string }>('textDocument/diagnostic', { uri: one });
    const { resultId: previousResultId } = first;
    const again = await client.request('textDocument/diagnostic', { uri: one }, { previousResultId });
    expect(again).toEqual({ kind: 'unchanged', resultId: previousResultId });
    await client.replace(one, 'contact-points', 'hall');
    expect(await client.request('textDocument/diagnostic', { uri: one }, { previousResultId })).toMatchObject({
      kind: 'full',
    });
  });
});

describe('a client that does not ask', () => {
  const last = (uri: string) => client.published.findLast((one) => one.uri === uri);

  it('gets what is found in files that are not open, and no word of those where nothing is', async () => {
    const bad = write('one.build.yaml', points);
    const good = write('clean.yaml', '');
    await start(waits);
    expect(client.initialized?.capabilities.diagnosticProvider).toBeUndefined();
    await client.publishedFor(bad, ({ diagnostics }) => codes(diagnostics).includes('ignition/contact-points'));
    expect(last(good)).toBeUndefined();
  });

  it('gets what stands in the editor while a sheet is open, and what stands on disk afterwards', async () => {
    const one = write('one.build.yaml', points);
    await start(waits);
    await client.publishedFor(one, ({ diagnostics }) => codes(diagnostics).includes('ignition/contact-points'));
    await client.open(one, sound);
    await client.publishedFor(one, ({ version }) => version === 1);
    await client.close(one);
    await until(() => codes(last(one)?.diagnostics ?? []).includes('ignition/contact-points'));
    write('one.build.yaml', sound);
    await client.touched(one);
    await until(() => !codes(last(one)?.diagnostics ?? []).includes('ignition/contact-points'));
    rmSync(join(shop, 'one.build.yaml'));
    await client.watched([{ uri: one, type: 3 }]);
    await until(() => last(one)?.diagnostics.length === 0);
  });

  it('and watches no files is told anew when it saves', async () => {
    const one = write('one.build.yaml', points);
    await start({ textDocument: { publishDiagnostics: { versionSupport: true } } });
    await client.publishedFor(one, ({ diagnostics }) => codes(diagnostics).includes('ignition/contact-points'));
    const other = write('other.build.yaml', sound);
    await client.open(other, sound);
    write('one.build.yaml', sound);
    await client.connection.sendNotification('textDocument/didSave', { textDocument: { uri: other } });
    await until(() => !codes(last(one)?.diagnostics ?? []).includes('ignition/contact-points'));
  });
});

describe('two windows on one folder', () => {
  it('share nothing but the files', async () => {
    const sheet = write('one.build.yaml', points);
    const other = write('two.build.yaml', points);
    await start();
    const second = await Client.start({ folders: [uriOf(shop)] });
    const before = readdirSync(shop, { recursive: true });
    await client.open(sheet, sound);
    await second.open(sheet, points);
    expect(codes(await client.pull(sheet))).not.toContain('ignition/contact-points');
    expect(codes(await second.pull(sheet))).toContain('ignition/contact-points');
    await second.replace(sheet, 'contact-points', 'magnetic-pickup');
    await second.open(other, sound);
    expect(codes(await second.pull(sheet))).not.toContain('ignition/contact-points');
    expect(found(await ask(), other)).toContain('ignition/contact-points');
    expect(await second.stop()).toBe(0);
    await client.close(sheet);
    expect(codes(await client.pull(sheet))).toContain('ignition/contact-points');
    expect(readdirSync(shop, { recursive: true })).toEqual(before);
  });
});
