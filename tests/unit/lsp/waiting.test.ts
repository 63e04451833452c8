import { afterEach, describe, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import { type CodeAction, LSPErrorCodes } from 'vscode-languageserver';
import type { Offer } from '../../../server/src/features/repairs.ts';
import { Service } from '../../../server/src/service.ts';
import type { Steps } from '../../../server/src/text/steps.ts';
import type { File } from '../../../server/src/workspace/workspace.ts';
import { codes, pulls, until, waits } from '../../protocol/client.ts';
import { InProcess, nothing, SHEET } from './in-process.ts';

const points = 'format: 1\nignition: { trigger: contact-points }\n';
const range = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
const context = { diagnostics: [] };

/** A service whose repairs take many short steps, until they are enough. */
class Slow extends Service {
  steps = 0;
  enough = (_isLate: boolean) => false;

  override *repairs(): Steps<Offer[]> {
    for (let step = 0; step < 5000; step++) {
      this.steps++;
      for (const end = performance.now() + 1; performance.now() < end; );
      if (this.enough(yield))
        return [{ title: 'Enough', preferred: false, mends: [], edits: [{ start: 0, end: 0, text: '#' }] }];
    }
    return [];
  }
}

let client: InProcess | undefined;
afterEach(() => client?.end());

describe('long work', () => {
  it('is given up when it is cancelled', async () => {
    const service = new Slow();
    client = await InProcess.start(service, nothing, pulls);
    await client.open(points);
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: SHEET }, range, context };
    const asked = client.connection.sendRequest('textDocument/codeAction', params, source.token);
    const outcome = asked.catch((error: { code: number }) => error.code);
    await until(() => service.steps > 2);
    source.cancel();
    expect(await outcome).toBe(LSPErrorCodes.RequestCancelled);
    const { steps } = service;
    await client.pull();
    expect(service.steps).toBe(steps);
  });

  it('is given up when the text changes', async () => {
    const service = new Slow();
    client = await InProcess.start(service, nothing, pulls);
    await client.open(points);
    const outcome = client.ask('codeAction', { range, context }).catch((error: { code: number }) => error.code);
    await until(() => service.steps > 2);
    await client.change('format: 1\n', 2);
    expect(await outcome).toBe(LSPErrorCodes.ContentModified);
  });

  it('lets other requests be answered between its steps', async () => {
    const service = new Slow();
    client = await InProcess.start(service, nothing, pulls);
    await client.open(points);
    const asked = client.ask<CodeAction[]>('codeAction', { range, context });
    await until(() => service.steps > 2);
    expect(codes(await client.pull())).toContain('ignition/contact-points');
    service.enough = () => true;
    expect((await asked).map(({ title }) => title)).toContain('Enough');
    expect(service.steps).toBeLessThan(5000);
  });

  it('is told when its time is up', async () => {
    const service = new Slow();
    service.enough = (isLate) => isLate;
    client = await InProcess.start(service, nothing, pulls);
    await client.open(points);
    const actions = await client.ask<CodeAction[]>('codeAction', { range, context });
    expect(actions.map(({ title }) => title)).toContain('Enough');
    expect(service.steps).toBeLessThan(5000);
  });
});

describe('a disk that takes its time', () => {
  /** A host whose files come when the test lets them. */
  function slowDisk() {
    const waiting: ((file: File) => void)[] = [];
    const read = () => new Promise<File>((give) => waiting.push(give));
    return { host: { ...nothing, read }, waiting };
  }

  it('holds up diagnostics until they are right, but neither completion nor outline', async () => {
    const { host, waiting } = slowDisk();
    client = await InProcess.start(new Service(), host, pulls);
    await client.open(points);
    let isTold = false;
    const told = client.pull().then((items) => {
      isTold = true;
      return items;
    });
    expect(await client.ask('documentSymbol')).toHaveLength(2);
    expect(await client.ask('completion', { position: { line: 2, character: 0 } })).not.toEqual([]);
    expect(isTold).toBe(false);
    const severity = 'rules: { ignition/contact-points: { severity: hint } }\n';
    const [first, ...others] = waiting;
    first?.({ kind: 'text', text: severity });
    for (const give of others) give({ kind: 'absent' });
    const found = (await told).find(({ code }) => code === 'ignition/contact-points');
    expect(found?.severity).toBe(4);
  });

  it('never makes diagnostics of an old version come out', async () => {
    const { host, waiting } = slowDisk();
    client = await InProcess.start(new Service(), host, waits);
    await client.open(points);
    await until(() => waiting.length > 0);
    await client.change('format: 1\n', 2);
    await client.ask('documentSymbol');
    for (const give of waiting) give({ kind: 'absent' });
    const { published } = client;
    await until(() => published.length > 0);
    expect(published.map(({ version }) => version)).not.toContain(1);
    expect(codes(published.at(-1)?.diagnostics ?? [])).not.toContain('ignition/contact-points');
  });

  it('is not asked for the same file twice at once', async () => {
    const { host, waiting } = slowDisk();
    client = await InProcess.start(new Service(), host, pulls);
    await client.open(points);
    const asked = [client.pull(), client.pull(), client.ask('hover', { position: { line: 1, character: 2 } })];
    await until(() => waiting.length === 2);
    for (const give of waiting) give({ kind: 'absent' });
    await Promise.all(asked);
    expect(waiting).toHaveLength(2);
  });
});
