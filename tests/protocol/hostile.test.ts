import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';

import { LSPErrorCodes } from 'vscode-languageserver';
import { Client, codes, uriOf, waits } from './client.ts';

const points = 'format: 1\nignition: { trigger: contact-points }\n';
const everything = { start: { line: 0, character: 0 }, end: { line: 99_999, character: 0 } };

describe('a cloned folder', () => {
  let shop: string;
  let client: Client;
  beforeEach(async () => {
    shop = mkdtempSync(join(tmpdir(), 'shop-'));
    client = await Client.start({ folders: [uriOf(shop)] });
  });
  afterEach(async () => {
    expect(client.complaints()).toEqual([]);
    expect(await client.stop()).toBe(0);
    rmSync(shop, { recursive: true });
  });

  const config = () => join(shop, 'build-sheet.config.yaml');

  it.each<[string, () => void, RegExp]>([
    ['a link to an endless device', () => symlinkSync('/dev/zero', config()), /not a regular file/],
    ['a pipe nobody writes to', () => execFileSync('mkfifo', [config()]), /not a regular file/],
    ['a folder', () => mkdirSync(config()), /not a regular file/],
    ['a link to itself', () => symlinkSync(config(), config()), /cannot be read/],
    ['50 MB', () => writeFileSync(config(), Buffer.alloc(50e6, '# x\n')), /larger than 200 kB/],
    [
      'of 300,000 keys',
      () => writeFileSync(config(), Array.from({ length: 300_000 }, (_, index) => `k${index}: 1\n`).join('')),
      /larger than 200 kB/,
    ],
    [
      'of 40,000 keys in as few characters as can be',
      () => writeFileSync(config(), `{${Array.from({ length: 40_000 }, (_, index) => index.toString(36)).join(',')}}`),
      /lines and commas/,
    ],
    ['no YAML', () => writeFileSync(config(), 'limits: { largest-duty: \n'), /missing/],
    ['random bytes', () => writeFileSync(config(), Buffer.from([0xff, 0xfe, 0x00, 0x7b, 0x0a, 0x80])), /./],
  ])('whose house file is %s is checked without it, and the sheet says so', async (_, make, reason) => {
    make();
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    const found = await client.pull(sheet);
    expect(codes(found)).toContain('ignition/contact-points');
    const told = found.filter(({ code }) => code === 'house/unreadable');
    expect(told.map(({ message }) => message)).toEqual([expect.stringMatching(reason)]);
    expect(told[0]?.message).toContain('build-sheet.config.yaml');
    expect(told[0]?.relatedInformation?.[0]?.location.uri).toBe(uriOf(config()));
    await client.open(uriOf(config()), 'units: si\n', 'build-sheet-config');
    expect(codes(await client.pull(sheet))).not.toContain('house/unreadable');
  });

  it('whose house file is in order is not spoken of', async () => {
    writeFileSync(config(), 'units: si\n');
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    expect(codes(await client.pull(sheet))).not.toContain('house/unreadable');
  });
});

describe('texts that an editor may send', () => {
  let client: Client;
  let number = 0;
  const fresh = () => `file:///shop/hostile-${number++}.build.yaml`;
  beforeAll(async () => {
    client = await Client.start();
  });
  afterAll(async () => {
    expect(client.complaints()).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('house rules of 300,000 keys in an editor are refused, not read', async () => {
    const uri = 'file:///shop/build-sheet.config.yaml';
    await client.open(
      uri,
      Array.from({ length: 300_000 }, (_, index) => `k${index}: 1\n`).join(''),
      'build-sheet-config',
    );
    expect(codes(await client.pull(uri))).toEqual(['sheet/too-large']);
    await client.close(uri);
  });

  it.each(['silence:\n  - rule: ignition/ballast\n    reason: dry\n', 'silence: [{ rule: a/b, stage: x }]\n'])(
    'a silencer typed one character after the other: %j',
    async (typed) => {
      const uri = fresh();
      await client.open(uri, points);
      for (const [index, character] of [...typed].entries()) {
        const position = client.document(uri).positionAt(points.length + index);
        await client.change(uri, [{ range: { start: position, end: position }, newText: character }]);
        const late = (error: { code: number }) => expect(error.code).toBe(LSPErrorCodes.ContentModified);
        void client.complete(uri, position).catch(late);
        void client.actions(uri, everything).catch(late);
        expect(codes(await client.pull(uri))).not.toContain('internal-fault');
      }
      expect(codes(await client.pull(uri))).toContain('ignition/contact-points');
    },
  );

  it('5,000 silencers end, and so do the repairs for all of them', async () => {
    const uri = fresh();
    const silencers = Array.from(
      { length: 5000 },
      (_, index) => `  - { rule: ignition/contact-pointz-${index}, reason: x, stage: s${index} }\n`,
    );
    await client.open(uri, `${points}silence:\n${silencers.join('')}`);
    expect((await client.pull(uri)).length).toBeLessThanOrEqual(500);
    const actions = await client.actions(uri, everything);
    expect(actions.length).toBeGreaterThan(0);
    for (const action of actions.filter(({ title }) => title.startsWith('Fix all of'))) await client.resolve(action);
    await client.close(uri);
  });

  it.each(['\r', '\r\n', '\n'])('lines that end with %j are counted as the editor counts them', async (end) => {
    const uri = fresh();
    await client.open(uri, ['format: 1', '# one', '# two', 'engine: { displacment: 4.9 L }', ''].join(end));
    const document = client.document(uri);
    const whole = document.getText();
    for (const { range } of await client.pull(uri)) {
      expect(document.positionAt(document.offsetAt(range.start))).toEqual(range.start);
      expect(document.positionAt(document.offsetAt(range.end))).toEqual(range.end);
      if (whole.trim()) expect(range.start).not.toEqual(range.end);
    }
    await client.close(uri);
  });

  it('requests that are not as they should be are refused or answered with nothing', async () => {
    const rude = await Client.start({ capabilities: waits });
    const ask = (method: string, params: object | null) =>
      rude.connection.sendRequest(method, params).catch((error: Error) => error.message);
    await rude.connection.sendNotification('textDocument/didOpen', {});
    await rude.connection.sendNotification('textDocument/didClose', { textDocument: {} });
    for (const method of ['hover', 'completion', 'codeAction', 'documentSymbol', 'foldingRange', 'documentLink']) {
      await ask(`textDocument/${method}`, {});
      await ask(`textDocument/${method}`, { textDocument: { uri: 5 }, position: { line: -1, character: 1e12 } });
    }
    await ask('codeAction/resolve', { title: 'none' });
    const uri = fresh();
    await rude.open(uri, points);
    await rude.publishedFor(uri, ({ diagnostics }) => diagnostics.length > 0);
    expect(await rude.stop()).toBe(0);
  });

  it('a change that does not fit loses the text, and says so, but not the server', async () => {
    const rude = await Client.start();
    const uri = fresh();
    await rude.open(uri, points);
    await rude.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: 2 },
      contentChanges: [{ nonsense: true }],
    });
    expect(await rude.pull(uri)).toEqual([]);
    expect(rude.logged.join('\n')).toMatch(/Internal fault in a change of a text\. To report it/);
    await rude.open(uri, points);
    expect(codes(await rude.pull(uri))).toContain('ignition/contact-points');
    expect(await rude.stop()).toBe(0);
  });
});

describe('user text in a hover', () => {
  const image = '![x](https://example.com/pixel.png)';
  const text = [
    'format: 1',
    'engine: { cylinders: 8, displacement: 4.9 L, peak-power-speed: 5000 rpm }',
    'ignition: { trigger: contact-points }',
    'stages:',
    `  - { name: "${image}<img src=x>", power: 245 hp, induction: natural }`,
    `silence: [{ rule: ignition/contact-points, reason: "${image}[link](https://example.com)" }]`,
    '',
  ].join('\n');
  const places = ['stages', 'power', 'silence', 'displacement', '![x]'];

  it('is text, never an image, a link or HTML', async () => {
    const client = await Client.start();
    const uri = 'file:///shop/names.build.yaml';
    await client.open(uri, text);
    const shown = [];
    for (const place of places) shown.push(JSON.stringify(await client.hover(uri, client.rangeOf(uri, place).start)));
    expect(shown.join('\n')).toContain('pixel.png');
    expect(shown.join('\n')).not.toMatch(/(?<!\\)!?\[[^\]\\]*\]\(|(?<!\\)<\w|(?<!\\):\/\//);
    await client.stop();
  });

  it('comes without any markup to a client without Markdown', async () => {
    const client = await Client.start({ capabilities: waits });
    const uri = 'file:///shop/names.build.yaml';
    await client.open(uri, text);
    const hover = await client.hover(uri, client.rangeOf(uri, 'stages').start);
    expect(hover?.contents).toMatchObject({ kind: 'plaintext', value: expect.stringContaining(`figure  `) });
    expect(JSON.stringify(hover)).not.toContain('**');
    await client.stop();
  });
});
