import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Client, codes } from './client.ts';

const SHEET = 'file:///shop/one.build.yaml';

let cache: string;
beforeEach(() => {
  cache = mkdtempSync(join(tmpdir(), 'cache-'));
});
afterEach(() => rmSync(cache, { recursive: true }));

/** Starts the server, has it check a sheet, and ends it. */
async function run(folder = cache): Promise<void> {
  const client = await Client.start({ cache: folder });
  await client.open(SHEET, 'format: 1\nignition: { trigger: contact-points }\n');
  expect(codes(await client.pull(SHEET))).toContain('ignition/contact-points');
  expect(client.complaints()).toEqual([]);
  expect(await client.stop()).toBe(0);
}

function kept(): string[] {
  const folder = join(cache, 'build-sheet');
  return existsSync(folder) ? readdirSync(folder).map((name) => join(folder, name)) : [];
}

describe.skipIf(process.platform === 'darwin')('what V8 compiled of the server', () => {
  it('is kept for this version of V8 and of the server, for the user alone, and used again', async () => {
    await run();
    const [file] = kept() as [string];
    expect(kept()).toHaveLength(1);
    expect(file).toContain(process.versions.v8);
    expect(statSync(file).mode & 0o077).toBe(0);
    const { mtimeMs } = statSync(file);
    await run();
    expect(statSync(file).mtimeMs).toBe(mtimeMs);
  });

  const sum = (data: Buffer) => createHash('sha256').update(data).digest();
  it.each<[string, (file: string, whole: Buffer) => void]>([
    ['cut off', (file, whole) => writeFileSync(file, whole.subarray(0, 1000))],
    ['empty', (file) => writeFileSync(file, '')],
    ['changed in one bit', (file, whole) => writeFileSync(file, whole.with(5000, (whole[5000] ?? 0) ^ 1))],
    [
      'something V8 never made',
      (file) => writeFileSync(file, Buffer.concat([sum(Buffer.alloc(9999)), Buffer.alloc(9999)])),
    ],
    ['open for everybody to write', (file) => chmodSync(file, 0o666)],
  ])('is not used when it is %s, and made anew', async (_, spoil) => {
    await run();
    const [file] = kept() as [string];
    spoil(file, readFileSync(file));
    await run();
    expect(kept()).toEqual([file]);
    const whole = readFileSync(file);
    expect(sum(whole.subarray(32)).equals(whole.subarray(0, 32))).toBe(true);
    expect(whole.length).toBeGreaterThan(100_000);
    expect(statSync(file).mode & 0o022).toBe(0);
  });

  it('is not kept where nothing can be written, and the server starts all the same', async () => {
    writeFileSync(join(cache, 'file'), '');
    await run(join(cache, 'file'));
    expect(readFileSync(join(cache, 'file'), 'utf8')).toBe('');
  });
});
