import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { filesOnDisk } from '../../server/src/disk.ts';

const MOST = 1000;
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'disk-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);
const uriOf = (name: string) => pathToFileURL(at(name)).href;

describe('a file on disk', () => {
  it('is read, also through a link', async () => {
    writeFileSync(at('a.yaml'), 'units: si # 😀\n');
    symlinkSync(at('a.yaml'), at('b.yaml'));
    const read = filesOnDisk();
    for (const name of ['a.yaml', 'b.yaml'])
      expect(await read(uriOf(name), MOST)).toEqual({ kind: 'text', text: 'units: si # 😀\n' });
  });

  it('is absent where nothing is, or nothing can be', async () => {
    writeFileSync(at('a.yaml'), '');
    const read = filesOnDisk();
    for (const uri of [uriOf('none.yaml'), `${uriOf('a.yaml')}/b.yaml`, 'git:/a.yaml', 'file://%zz'])
      expect(await read(uri, MOST)).toEqual({ kind: 'absent' });
  });

  it('is the same object while it does not change, and another once it does', async () => {
    writeFileSync(at('a.yaml'), 'units: si\n');
    const read = filesOnDisk();
    const first = await read(uriOf('a.yaml'), MOST);
    expect(await read(uriOf('a.yaml'), MOST)).toBe(first);
    utimesSync(at('a.yaml'), new Date(), new Date(Date.now() + 5000));
    expect(await read(uriOf('a.yaml'), MOST)).not.toBe(first);
    rmSync(at('a.yaml'));
    expect(await read(uriOf('a.yaml'), MOST)).toEqual({ kind: 'absent' });
  });

  it.each([
    ['a folder', () => mkdirSync(at('x')), /not a regular file/],
    ['an endless device', () => symlinkSync('/dev/zero', at('x')), /not a regular file/],
    ['a pipe', () => execFileSync('mkfifo', [at('x')]), /not a regular file/],
    ['larger than it may be', () => writeFileSync(at('x'), 'x'.repeat(MOST + 1)), /larger than 1 kB/],
    ['a link to itself', () => symlinkSync(at('x'), at('x')), /ELOOP/],
  ])('is refused when it is %s', async (_, make, reason) => {
    make();
    const found = await filesOnDisk()(uriOf('x'), MOST);
    expect(found).toEqual({ kind: 'refused', reason: expect.stringMatching(reason) });
  });

  it('of just the size it may have is read', async () => {
    writeFileSync(at('x'), 'x'.repeat(MOST));
    expect(await filesOnDisk()(uriOf('x'), MOST)).toMatchObject({ kind: 'text' });
  });
});
