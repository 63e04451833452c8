import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import type { DocumentSymbol } from 'vscode-languageserver';
import { Client, codes, told, waits } from './client.ts';

const POINTS = 'Contact points give the computer no signal it can rely on.';
const points = 'format: 1\nignition: { trigger: contact-points }\n';
let number = 0;
const fresh = () => `file:///shop/sheet-${number++}.build.yaml`;

/** Diagnostics but for the one that tells which sections are still missing. */
async function pulled(client: Client, uri: string): Promise<string[]> {
  const items = (await client.pull(uri)).filter(({ code }) => code !== 'paper/incomplete');
  return told(client.document(uri), items);
}

describe('diagnostics that are pulled', () => {
  let client: Client;
  beforeAll(async () => {
    client = await Client.start();
  });
  afterAll(async () => {
    expect(client.complaints()).toEqual([]);
    await client.stop();
  });

  async function of(text: string): Promise<string[]> {
    const uri = fresh();
    await client.open(uri, text);
    const items = await pulled(client, uri);
    await client.close(uri);
    return items;
  }

  it('are those of the newest version', async () => {
    const uri = fresh();
    await client.open(uri, points);
    expect(await pulled(client, uri)).toEqual([`contact-points: ${POINTS}`]);
    await client.replace(uri, 'contact-points', 'magnetic-pickup');
    expect(await pulled(client, uri)).not.toContain(`contact-points: ${POINTS}`);
    await client.replace(uri, 'magnetic-pickup', 'contact-points');
    expect(await pulled(client, uri)).toEqual([`contact-points: ${POINTS}`]);
    await client.close(uri);
    expect(await client.pull(uri)).toEqual([]);
  });

  it('carry severity, source, code and the page that explains it', async () => {
    const uri = fresh();
    await client.open(uri, points);
    const found = (await client.pull(uri)).find(({ code }) => code === 'ignition/contact-points');
    expect(found).toMatchObject({ severity: 1, source: 'build-sheet', data: { found: 'ignition/contact-points' } });
    const page = found?.codeDescription?.href ?? '';
    expect(page).toMatch(/\/schemas\/reference\/rules\/ignition\/contact-points\.md$/);
    expect(existsSync(fileURLToPath(page))).toBe(true);
  });

  it.each([
    ['lines that end with CRLF', points.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${points}`],
    ['astral characters before the range', points.replace('{', '{ name: 😀😀 wagon,')],
    ['comments with any characters', points.replace('format', '# 😀 é 中\nformat')],
    ['no end of the last line', points.trimEnd()],
    ['an anchor', points.replace('contact-points', '&t contact-points')],
    ['an alias', 'format: 1\nx-t: &t contact-points\nignition: { trigger: *t }\n'],
    ['quotes', points.replace('contact-points', '"contact-points"')],
  ])('stand at their place with %s', async (_, text) => {
    const [only, ...others] = await of(text);
    expect(others).toEqual([]);
    expect(only).toMatch(/^(contact-points|"contact-points"|\*t): Contact points give/);
  });

  it('stand at the merge where a merge key brings the value in', async () => {
    const items = await of(
      'format: 1\nx-i: &i { trigger: contact-points }\nignition: { <<: *i, supply: full-voltage }\n',
    );
    expect(items).toEqual([`contact-points: ${POINTS}`]);
  });

  it('do not take merged fields for unknown or missing', async () => {
    const items = await of('format: 1\nx-note: &n { note: dry }\nnotes:\n  - { <<: *n, date: 2031-01-01 }\n');
    expect(items).toEqual([]);
  });

  /** What holds outside the broken line, or in what can still be read of it, is told all the same. */
  const KNOWN_BESIDE = ['ignition/contact-points', 'paper/incomplete'];

  it.each([
    ['a half-typed key', 'format: 1\nignition: { trigger: magnetic-pickup }\nfuel-sys'],
    ['a half-typed value', 'format: 1\nignition: { trigger: '],
    ['an open brace', 'format: 1\nignition: { trigger: contact-points\nstages:\n  - { name: a }\n'],
    ['an open quote', 'format: 1\ntitle: "wagon\nignition: { trigger: contact-points }\n'],
    ['an open bracket', 'format: 1\nfuel-system: { pump: { flow-at: [[40 psi, '],
    ['a tab', 'format: 1\nignition:\n\ttrigger: contact-points\n'],
  ])('tell %s at one line and guess nothing more', async (_, text) => {
    const uri = fresh();
    await client.open(uri, text);
    const items = await client.pull(uri);
    expect(codes(items).filter((code) => code.startsWith('sheet/'))).toEqual(['sheet/syntax']);
    expect(codes(items).filter((code) => !KNOWN_BESIDE.includes(code))).toEqual(['sheet/syntax']);
    for (const { range } of items) expect(range.end.line).toBe(range.start.line);
    await client.close(uri);
  });

  it.each(['', '\n', '# only a comment\n', '\ufeff', '---\n', '~\n'])(
    'of the all but empty text %j are one',
    async (text) => {
      const uri = fresh();
      await client.open(uri, text);
      const problems = (await client.pull(uri)).filter(({ code }) => code !== 'paper/incomplete');
      expect(problems).toHaveLength(1);
      expect(problems[0]?.range.start.line).toBe(0);
      await client.close(uri);
    },
  );

  it('refuse an alias bomb in one sentence', async () => {
    const lines = [...'bcdefghij'].map((name, index) => {
      const before = 'abcdefghi'[index];
      return `x-${name}: &${name} [${Array(9).fill(`*${before}`).join(', ')}]`;
    });
    const items = await of(['x-a: &a [lol, lol]', ...lines].join('\n'));
    expect(items).toEqual([
      'x-a: &a [lol, lol]: Aliases unfold this sheet beyond any reasonable size; write the values out instead.',
    ]);
  });

  it('of a sheet full of aliases are as of any other', async () => {
    const stages = Array.from({ length: 24 }, (_, index) => `  - { name: stage ${index}, changes: *c }`).join('\n');
    const notes = Array.from({ length: 1500 }, () => '  - *n').join('\n');
    const items = await of(
      `format: 1\nx-c: &c { ignition: { trigger: contact-points } }\nx-n: &n { date: 2031-01-01, note: dry }\nstages:\n${stages}\nnotes:\n${notes}\n`,
    );
    expect(items.filter((item) => item.includes(POINTS))).toHaveLength(1);
  });

  it('tell conflict markers of a merge and nothing else', async () => {
    const items = await of('format: 1\n<<<<<<< ours\ntitle: a\n=======\ntitle: b\n>>>>>>> theirs\n');
    expect(items).toHaveLength(1);
    expect(items[0]).toMatch(/^<<<<<<< ours: The text holds conflict markers/);
  });

  it('of a very long sheet are bounded, and so is its outline', async () => {
    const uri = fresh();
    const notes = Array.from({ length: 20_000 }, (_, index) => `  - { note: step ${index} }`).join('\n');
    await client.open(uri, `format: 1\nnotes:\n${notes}\n`);
    const items = await client.pull(uri);
    expect(items.length).toBeGreaterThan(100);
    expect(items.length).toBeLessThanOrEqual(500);
    const count = (symbols: readonly DocumentSymbol[]): number =>
      symbols.reduce((sum, { children = [] }) => sum + 1 + count(children), 0);
    expect(count(await client.request('textDocument/documentSymbol', { uri }))).toBeLessThanOrEqual(2000);
    expect((await client.request<object[]>('textDocument/foldingRange', { uri })).length).toBeLessThanOrEqual(5000);
    await client.close(uri);
  });

  it('that are cancelled are refused unless already answered in full, and the next pull tells everything', async () => {
    const uri = fresh();
    const slow = fresh();
    const notes = Array.from({ length: 8000 }, (_, index) => `  - { note: step ${index} }`).join('\n');
    await client.open(uri, points);
    await client.open(slow, `format: 1\nnotes:\n${notes}\n`);
    const first = client.pull(slow);
    const source = new CancellationTokenSource();
    const second = client.pull(uri, source.token);
    source.cancel();
    const outcome = await second.catch((error: { code: number }) => error.code);
    await first;
    const whole = await client.pull(uri);
    expect([-32800, whole]).toContainEqual(outcome);
    expect(await pulled(client, uri)).toEqual([`contact-points: ${POINTS}`]);
    await client.close(slow);
    await client.close(uri);
  });

  it('name the other places that a finding involves', async () => {
    const uri = fresh();
    await client.open(
      uri,
      'format: 1\nstages:\n  - { name: now, induction: roots, boost: 6 psi }\nvacuum-reference: { port: above-blower }\n',
    );
    const found = (await client.pull(uri)).find(({ code }) => code === 'vacuum/reference-above-blower');
    expect(found?.relatedInformation?.length).toBeGreaterThan(0);
    for (const { location } of found?.relatedInformation ?? []) expect(location.uri).toBe(uri);
    await client.close(uri);
  });
});

describe('diagnostics that are published', () => {
  let client: Client;
  beforeAll(async () => {
    client = await Client.start({ capabilities: waits });
  });
  afterAll(async () => {
    expect(client.complaints()).toEqual([]);
    await client.stop();
  });

  it('carry the version of the document', async () => {
    const uri = fresh();
    await client.open(uri, points);
    const first = await client.publishedFor(uri, ({ version }) => version === 1);
    expect(codes(first.diagnostics)).toContain('ignition/contact-points');
    await client.replace(uri, 'contact-points', 'hall');
    const second = await client.publishedFor(uri, ({ version }) => version === 2);
    expect(codes(second.diagnostics)).not.toContain('ignition/contact-points');
    await client.close(uri);
  });

  it('are never stale: after a hundred edits the newest version is told last', async () => {
    const uri = fresh();
    await client.open(uri, points);
    for (let edit = 0; edit < 100; edit++) {
      const [before, after] = edit % 2 === 0 ? ['contact-points', 'hall'] : ['hall', 'contact-points'];
      await client.replace(uri, before as string, after as string);
    }
    await client.replace(uri, 'contact-points', 'hall');
    const newest = await client.publishedFor(uri, ({ version }) => version === 102);
    expect(codes(newest.diagnostics)).not.toContain('ignition/contact-points');
    await client.settled();
    const versions = client.published.filter((one) => one.uri === uri).map(({ version }) => version ?? 0);
    expect(versions).toEqual(versions.toSorted((one, other) => one - other));
    expect(versions.at(-1)).toBe(102);
    await client.close(uri);
  });

  it('are cleared when the document is closed, and told again when it is opened again', async () => {
    const uri = fresh();
    await client.open(uri, points);
    await client.publishedFor(uri, ({ diagnostics }) => diagnostics.length > 0);
    await client.close(uri);
    const cleared = await client.publishedFor(uri, ({ version }) => version === undefined);
    expect(cleared.diagnostics).toEqual([]);
    expect(client.published.findLast((one) => one.uri === uri)).toEqual(cleared);
    const before = client.published.length;
    await client.open(uri, points);
    await client.publishedFor(uri, (params) => client.published.indexOf(params) >= before);
    expect(codes(client.published.at(-1)?.diagnostics ?? [])).toContain('ignition/contact-points');
    await client.close(uri);
  });

  it('are not told of a document that was closed before they were ready', async () => {
    const uri = fresh();
    await client.open(uri, points);
    await client.close(uri);
    await client.settled();
    const all = client.published.filter((one) => one.uri === uri);
    expect(all.at(-1)?.diagnostics).toEqual([]);
  });
});
