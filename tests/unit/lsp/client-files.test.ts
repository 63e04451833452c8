import { describe, expect, it } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import { withFilesOfClient } from '../../../server/src/lsp/client-files.ts';
import { nothing } from './in-process.ts';

const ROOT = 'remote://place/shop';

const files: Record<string, string | Uint8Array> = {
  'parts/pumps.parts.yaml': 'format: 1\nparts: []\n',
  'parts/old/hoses.parts.yml': 'format: 1\nparts: []\n',
  'parts/node_modules/other.parts.yaml': 'format: 1\n',
  'parts/notes.txt': 'none of ours',
  'cars/wagon.build.yaml': 'format: 2\n',
  'cars/Größe.build.yaml': 'format: 2\n',
  'cars/latin.build.yaml': new Uint8Array([0x66, 0xe4]),
};

/** A client that keeps its files in memory, and counts what it is asked. */
function client() {
  const asked: string[] = [];
  const inside = (uri: string) => decodeURIComponent(uri.slice(ROOT.length + 1));
  const sendRequest = async (type: { method: string }, { uri, mostBytes }: { uri: string; mostBytes: number }) => {
    asked.push(inside(uri));
    if (inside(uri) === 'locked') return { code: 'NoPermissions' };
    if (type.method === 'buildSheet/readFolder') return { entries: entriesOf(inside(uri)) };
    const content = files[inside(uri)];
    if (content === undefined) return { missing: entriesOf(inside(uri)).length > 0 ? 'irregular' : 'absent' };
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    return bytes.length > mostBytes ? { missing: 'large' } : { bytes };
  };
  const host = withFilesOfClient({ ...nothing, holds: (uri) => uri.startsWith('file:') }, {
    sendRequest,
  } as unknown as Connection);
  return { host, asked };
}

function entriesOf(folder: string) {
  const start = folder === '' ? '' : `${folder}/`;
  const below = Object.keys(files).filter((path) => path.startsWith(start));
  const steps = below.map((path) => path.slice(start.length).split('/'));
  return [...new Map(steps.map(([name = '', ...rest]) => [name, { name, isFolder: rest.length > 0 }])).values()];
}

const at = (path: string) => `${ROOT}/${path.split('/').map(encodeURIComponent).join('/')}`;

describe('files that the client gives', () => {
  it('are read, and the same object as long as they do not change', async () => {
    const { host } = client();
    const file = await host.read(at('cars/wagon.build.yaml'), 1000);
    expect(file).toEqual({ kind: 'text', text: 'format: 2\n' });
    expect(await host.read(at('cars/wagon.build.yaml'), 1000)).toBe(file);
  });

  it.each([
    ['cars/wagon.build.yaml', 5, 'it is larger than 0.005 kB, the most that is read of such a file.'],
    ['cars', 1000, 'it is not a regular file.'],
    ['cars/latin.build.yaml', 1000, 'it is not UTF-8 text; save it as UTF-8.'],
    ['locked', 1000, 'it cannot be read (NoPermissions).'],
  ])('are refused for a reason: %s', async (path, most, reason) => {
    expect(await client().host.read(at(path), most)).toEqual({ kind: 'refused', reason });
  });

  it('may be absent', async () => {
    expect(await client().host.read(at('cars/none.build.yaml'), 1000)).toEqual({ kind: 'absent' });
  });

  it('are found in folders and below, where nobody else put them', async () => {
    const { uris, complaints } = await client().host.find([ROOT]);
    expect(uris).toEqual(
      [
        'cars/Größe.build.yaml',
        'cars/latin.build.yaml',
        'cars/wagon.build.yaml',
        'parts/old/hoses.parts.yml',
        'parts/pumps.parts.yaml',
      ].map(at),
    );
    expect(complaints).toEqual([]);
  });

  it('tell which folder cannot be looked into', async () => {
    const { complaints } = await client().host.find([at('locked')]);
    expect(complaints).toEqual([`the folder ${at('locked')} cannot be read (NoPermissions).`]);
  });

  it.each([
    [['*.parts.yaml'], 'parts', ['parts/pumps.parts.yaml']],
    [['**/*.parts.{yaml,yml}'], '', ['parts/old/hoses.parts.yml', 'parts/pumps.parts.yaml']],
    [['../parts/*.parts.yaml'], 'cars', ['parts/pumps.parts.yaml']],
    [['./parts/pumps.parts.yaml', 'parts/*/*.yml'], '', ['parts/old/hoses.parts.yml', 'parts/pumps.parts.yaml']],
    [['*.txt'], 'parts', []],
  ])('are found by patterns of house rules: %j from "%s"', async (patterns, folder, found) => {
    const where = folder === '' ? ROOT : at(folder);
    expect(await client().host.search({ folder: where, patterns })).toEqual(found.map(at));
  });

  it('are not asked for where the server can look by itself', async () => {
    const { host, asked } = client();
    expect(await host.read('file:///shop/one.build.yaml', 1000)).toEqual({ kind: 'absent' });
    expect(asked).toEqual([]);
  });
});
