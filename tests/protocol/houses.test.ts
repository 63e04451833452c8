import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ClientCapabilities, CompletionList, MarkupContent } from 'vscode-languageserver';
import { Client, codes, cursor, until, uriOf, waits, written } from './client.ts';

const CONFIG = 'build-sheet.config.yaml';
const points = 'format: 1\nignition: { trigger: contact-points }\n';
const asWarning = 'rules: { ignition/contact-points: { severity: warning } }\n';
const off = 'rules: { ignition/contact-points: { severity: "off", reason: museum piece } }\n';

let shop: string;
let clients: Client[];
beforeEach(() => {
  shop = mkdtempSync(join(tmpdir(), 'shop-'));
  clients = [];
});
afterEach(async () => {
  for (const client of clients) {
    expect(client.complaints()).toEqual([]);
    await client.stop();
  }
  rmSync(shop, { recursive: true });
});

const write = (path: string, text: string) => written(shop, path, text);

async function start(folders: string[], capabilities?: ClientCapabilities): Promise<Client> {
  const client = await Client.start({ folders, ...(capabilities && { capabilities }) });
  clients.push(client);
  return client;
}

/** Severity of the finding of contact points: 1 error, 2 warning; nothing where there is none. */
async function severity(client: Client, uri: string): Promise<number | undefined> {
  return (await client.pull(uri)).find(({ code }) => code === 'ignition/contact-points')?.severity;
}

describe('house rules', () => {
  it('hold for the sheets of their folder', async () => {
    write(CONFIG, asWarning);
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(2);
  });

  it.each(['', '/'])('hold in a workspace folder whose address ends with %j', async (end) => {
    write(CONFIG, asWarning);
    const client = await start([`${uriOf(shop)}${end}`]);
    const sheet = uriOf(join(shop, 'trucks', 'one.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(2);
  });

  it('of the nearer folder hold over those of the farther, and add to them', async () => {
    write(CONFIG, `${asWarning}units: si\n`);
    write(`trucks/${CONFIG}`, off);
    write(`trucks/old/${CONFIG}`, 'rules: { ignition/contact-points: { severity: hint } }\n');
    const client = await start([uriOf(shop)]);
    const found = [];
    for (const folder of ['.', 'cars', 'trucks', 'trucks/new', 'trucks/old']) {
      const sheet = uriOf(join(shop, folder, 'one.build.yaml'));
      await client.open(sheet, points);
      found.push(await severity(client, sheet));
    }
    expect(found).toEqual([2, 2, undefined, undefined, 4]);
  });

  it('differ between the folders of a workspace', async () => {
    write(`east/${CONFIG}`, asWarning);
    write(`west/${CONFIG}`, off);
    const client = await start([uriOf(join(shop, 'east')), uriOf(join(shop, 'west'))]);
    const [east, west, outside] = ['east', 'west', 'north'].map((folder) => uriOf(join(shop, folder, 'a.build.yaml')));
    for (const sheet of [east, west, outside] as string[]) await client.open(sheet, points);
    expect(await severity(client, east as string)).toBe(2);
    expect(await severity(client, west as string)).toBeUndefined();
    expect(await severity(client, outside as string)).toBe(1);
  });

  it('above the workspace folder do not count', async () => {
    write(CONFIG, off);
    mkdirSync(join(shop, 'trucks'));
    const client = await start([uriOf(join(shop, 'trucks'))]);
    const sheet = uriOf(join(shop, 'trucks', 'a.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(1);
  });

  it('count as soon as their folder joins the workspace, and no longer when it leaves', async () => {
    write(CONFIG, asWarning);
    mkdirSync(join(shop, 'trucks'));
    const client = await start([uriOf(join(shop, 'trucks'))]);
    const sheet = uriOf(join(shop, 'trucks', 'a.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(1);
    const folder = { uri: uriOf(shop), name: 'shop' };
    const trucks = { uri: uriOf(join(shop, 'trucks')), name: 'trucks' };
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [folder], removed: [trucks] },
    });
    expect(await severity(client, sheet)).toBe(2);
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [trucks], removed: [folder] },
    });
    expect(await severity(client, sheet)).toBe(1);
  });

  it('are read again when their file changes, and the client is asked to pull', async () => {
    const config = write(CONFIG, asWarning);
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(2);
    expect(client.registered).toContain('workspace/didChangeWatchedFiles');
    const asked = client.refreshes;
    write(CONFIG, off);
    await client.touched(config);
    await until(() => client.refreshes > asked);
    expect(await severity(client, sheet)).toBeUndefined();
    rmSync(join(shop, CONFIG));
    await client.touched(config);
    expect(await severity(client, sheet)).toBe(1);
  });

  it('in an open editor hold as they stand there, and those on disk again when it is closed', async () => {
    const config = write(CONFIG, asWarning);
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    await client.open(config, asWarning, 'build-sheet-config');
    expect(await severity(client, sheet)).toBe(2);
    await client.replace(config, 'warning', 'information');
    expect(await severity(client, sheet)).toBe(3);
    const asked = client.refreshes;
    await client.close(config);
    await until(() => client.refreshes > asked);
    expect(await severity(client, sheet)).toBe(2);
  });

  it('that change are published for a client that cannot pull', async () => {
    const config = write(CONFIG, asWarning);
    const client = await start([uriOf(shop)], waits);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    await client.publishedFor(sheet, ({ diagnostics }) => diagnostics.some(({ severity }) => severity === 2));
    write(CONFIG, off);
    await client.touched(config);
    await client.publishedFor(sheet, ({ diagnostics }) => !codes(diagnostics).includes('ignition/contact-points'));
  });

  it('are checked themselves', async () => {
    const client = await start([uriOf(shop)]);
    const config = uriOf(join(shop, CONFIG));
    await client.open(
      config,
      'limits: { largest-duty: 85 psi }\nrules:\n  no/such: { severity: hint }\n  ignition/contact-points: { severity: "off" }\nunit: si\n',
      'build-sheet-config',
    );
    const found = await client.pull(config);
    expect(codes(found).toSorted()).toEqual([
      'house/off-without-reason',
      'house/unknown-rule',
      'sheet/quantity',
      'sheet/unknown-field',
    ]);
    const [fix] = await client.actions(config, client.rangeOf(config, 'unit:'));
    await client.apply(fix);
    expect(client.text(config)).toContain('units: si');
  });

  it('that say off without a reason leave the rule on', async () => {
    write(CONFIG, 'rules: { ignition/contact-points: { severity: "off" } }\n');
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    await client.open(sheet, points);
    expect(await severity(client, sheet)).toBe(1);
  });

  it('that are half typed do not take the findings away', async () => {
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    const config = uriOf(join(shop, CONFIG));
    await client.open(sheet, points);
    for (const text of [
      '',
      'rules:',
      'rules: {',
      'rules: { ignition/contact-points: { sev',
      '\t',
      '- a',
      '<<<<<<< ours\n',
    ]) {
      await client.open(config, text, 'build-sheet-config');
      expect(await severity(client, sheet)).toBe(1);
      await client.close(config);
    }
  });

  it('help while they are written', async () => {
    const client = await start([uriOf(shop)]);
    const config = uriOf(join(shop, CONFIG));
    const { text, position } = cursor('rules:\n  ignition/contact-points: { severity: ‸ }\n');
    await client.open(config, text, 'build-sheet-config');
    const labels = ({ items }: CompletionList) => items.map(({ label }) => label);
    expect(labels(await client.complete(config, position))).toEqual(['error', 'warning', 'information', 'hint', 'off']);
    const hover = await client.hover(config, client.rangeOf(config, 'severity').start);
    expect((hover?.contents as MarkupContent | undefined)?.value).toContain('**Severity**');
    await client.close(config);
    const rules = cursor('rules:\n  ‸\n');
    await client.open(config, rules.text, 'build-sheet-config');
    expect(labels(await client.complete(config, rules.position))).toContain('ignition/contact-points');
  });

  it('set the units of hovers for what the sheet does not write', async () => {
    write(CONFIG, 'units: si\n');
    const client = await start([uriOf(shop)]);
    const sheet = uriOf(join(shop, 'one.build.yaml'));
    const text = readFileSync('samples/quarry-wagon.build.yaml', 'utf8').replace(' static-flow: 72 lb/h,', '');
    await client.open(sheet, text);
    const hover = await client.hover(sheet, client.rangeOf(sheet, 'injectors').start);
    expect((hover?.contents as MarkupContent | undefined)?.value).toMatch(/\| Static flow .*cm\^3\/min/);
  });
});
