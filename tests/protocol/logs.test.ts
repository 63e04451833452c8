import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Diagnostic, FileChangeType, type WorkspaceDiagnosticReport } from 'vscode-languageserver';
import { Client, pulls, told, until, uriOf, waits, written } from './client.ts';

const SHEET = `format: 2
stages:
  - { name: first summer, power: 245 hp, induction: natural }
measured:
  - date: 2026-06-14
    log: { file: logs/first drive.csv, columns: { speed: RPM, duty: Duty (%) } }
`;

/** A pull to 5,400 rpm with so much duty at most. */
const logOf = (duty: number) => `RPM,Duty (%)\n900,6\n3000,40\n5400,${duty}\n2000,20\n`;

let shop: string;
let client: Client;
let sheet: string;
const LOG = 'logs/first drive.csv';
const write = (text: string, name = LOG, encoding: BufferEncoding = 'utf8') => {
  written(shop, name, '');
  writeFileSync(join(shop, name), text, encoding);
};
const addressOfLog = () => uriOf(join(shop, LOG));

beforeEach(() => {
  shop = mkdtempSync(join(tmpdir(), 'shop-'));
  sheet = uriOf(join(shop, 'one.build.yaml'));
});
afterEach(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
  rmSync(shop, { recursive: true });
});

async function open(text = SHEET, capabilities = pulls): Promise<void> {
  client = await Client.start({ folders: [uriOf(shop)], capabilities });
  await client.open(sheet, text);
}

const ofLog = ({ code }: Diagnostic) => String(code).startsWith('measured/');

/** What is told of the log, with the text it stands under. */
async function found(): Promise<string[]> {
  return told(client.document(sheet), (await client.pull(sheet)).filter(ofLog));
}

/** Does something to the log, tells the server as a watcher does, and waits until it asks for another pull. */
async function followed(type: FileChangeType, act: () => void): Promise<string[]> {
  const asked = client.refreshes;
  act();
  await client.watched([{ uri: addressOfLog(), type }]);
  await until(() => client.refreshes > asked);
  return found();
}

const MISSING =
  'logs/first drive.csv: The log "logs/first drive.csv" is not read: there is no such file beside the sheet.';
const over = (duty: number, line: number) =>
  expect.stringContaining(`A duty cycle of ${duty} % was read (line ${line} of the log); the limit is 85 %.`);

describe('a log beside a sheet', () => {
  it('is asked to be watched, and told of while it comes, changes and goes', async () => {
    await open();
    expect(await found()).toEqual([MISSING]);
    expect(client.registered).toContain('workspace/didChangeWatchedFiles');
    expect(await followed(FileChangeType.Created, () => write(logOf(94)))).toEqual([over(94, 4)]);
    expect(await followed(FileChangeType.Changed, () => write(logOf(97)))).toEqual([over(97, 4)]);
    expect(await followed(FileChangeType.Changed, () => write(logOf(80)))).toEqual([]);
    expect(await followed(FileChangeType.Deleted, () => rmSync(join(shop, LOG)))).toEqual([MISSING]);
  });

  it('is another once the sheet names another, and its columns are those the sheet names at the moment', async () => {
    write(logOf(94));
    write(logOf(91), 'logs/second.csv');
    await open();
    expect(await found()).toEqual([over(94, 4)]);
    await client.replace(sheet, 'first drive', 'second');
    expect(await found()).toEqual([over(91, 4)]);
    await client.replace(sheet, 'Duty (%)', 'Dut');
    expect(await found()).toEqual([
      'Dut: The log "logs/second.csv" is not read: it has no column "Dut"; its headings are "RPM", "Duty (%)".',
    ]);
    await client.replace(sheet, 'duty: Dut', 'duty: Duty (%)');
    expect(await found()).toEqual([over(91, 4)]);
  });

  it('is told of to a client that waits for diagnostics', async () => {
    await open(SHEET, waits);
    const isMissing = (one: Diagnostic) => one.code === 'measured/log-unread';
    await client.publishedFor(sheet, ({ diagnostics }) => diagnostics.some(isMissing));
    write(logOf(94));
    await client.watched([{ uri: addressOfLog(), type: FileChangeType.Created }]);
    const { diagnostics } = await client.publishedFor(sheet, (one) => !one.diagnostics.some(isMissing));
    expect(told(client.document(sheet), diagnostics.filter(ofLog))).toEqual([over(94, 4)]);
  });

  it('is told of in a sheet that nobody opened', async () => {
    written(shop, 'one.build.yaml', SHEET);
    write(logOf(94));
    client = await Client.start({ folders: [uriOf(shop)] });
    const ask = (previousResultIds: { uri: string; value: string }[]) =>
      client.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds });
    const messages = ({ items }: WorkspaceDiagnosticReport) =>
      items.flatMap((one) => ('items' in one ? one.items.filter(ofLog).map(({ message }) => message) : []));
    const first = await ask([]);
    expect(messages(first)).toEqual([over(94, 4)]);
    const known = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' }));
    const next = ask(known);
    write(logOf(99));
    await client.touched(addressOfLog());
    expect(messages(await next)).toEqual([over(99, 4)]);
  });

  it.each<[what: string, put: (file: string) => void, told: string]>([
    [
      'a huge file',
      (file) => truncateSync(file, 8_000_001),
      'it is larger than 8000 kB, the most that is read of such a file.',
    ],
    ['zeros', (file) => truncateSync(file, 1000), 'it is no text.'],
    ['no UTF-8', () => write('RPM,Duty (%)\n\u00e9', LOG, 'latin1'), 'it is not UTF-8 text; save it as UTF-8.'],
    ['nothing', () => write(''), 'it is empty.'],
    ['a folder', (file) => [rmSync(file), mkdirSync(file)], 'it is not a regular file.'],
    ['a device', (file) => [rmSync(file), symlinkSync('/dev/zero', file)], 'it is not a regular file.'],
    [
      'too many rows',
      () => write(`RPM,Duty (%)\n${'1,1\n'.repeat(200_001)}`),
      'it has more than 200000 rows; cut it to the drive that counts.',
    ],
  ])('that is %s is refused plainly where it is named', async (_, put, reason) => {
    write('RPM,Duty (%)\n');
    put(join(shop, LOG));
    await open();
    expect(await found()).toEqual([`logs/first drive.csv: The log "logs/first drive.csv" is not read: ${reason}`]);
  });

  it('that lies outside the folder of the sheet is not looked for', async () => {
    write(logOf(94), 'outside.csv');
    sheet = uriOf(join(shop, 'inner', 'one.build.yaml'));
    await open(SHEET.replace('logs/first drive.csv', '../outside.csv'));
    expect(await found()).toEqual([]);
    const all = told(client.document(sheet), await client.pull(sheet));
    expect(all).toContainEqual(expect.stringMatching(/^\.\.\/outside\.csv: /));
  });

  it('that is named in a way that is not seen is told to be', async () => {
    write(logOf(94));
    await open(
      SHEET.replace('first summer', '&name logs/first drive.csv').replace('file: logs/first drive.csv', 'file: *name'),
    );
    expect(await found()).toEqual([expect.stringMatching(/^\*name: The log .* is not read: /)]);
  });
});
