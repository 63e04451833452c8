import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Service } from '../../../server/src/service.ts';
import { Catalog } from '../../../server/src/sheet/catalog.ts';
import { kinds } from '../../../server/src/sheet/slots.ts';
import { readHouse } from '../../../server/src/workspace/house-file.ts';

const FOLDER = 'samples/counter';
const HOUSE = 'file:///shop/build-sheet.config.yaml';
const PARTS = 'file:///shop/shelf.parts.yaml';
const read = (name: string) => readFileSync(`${FOLDER}/${name}`, 'utf8');
const catalog = new Catalog(read('shelf.parts.yaml'));

/** The samples of the counter with their house and their catalog. */
function counter(): Service {
  const service = new Service();
  const { workspace } = service;
  workspace.roots = ['file:///shop'];
  workspace.today = '2026-10-01';
  workspace.put({ uri: HOUSE, kind: 'house', version: 1, text: read('build-sheet.config.yaml') });
  workspace.put({ uri: PARTS, kind: 'catalog', version: 1, text: read('shelf.parts.yaml') });
  workspace.giveFound({ folder: 'file:///shop', patterns: ['*.parts.yaml'] }, [PARTS], 0);
  return service;
}

describe('the catalog of the counter', () => {
  it('has at least 80 parts, over all kinds, and nothing to find', () => {
    expect(catalog.ids('parts').length).toBeGreaterThanOrEqual(80);
    for (const kind of kinds) expect(catalog.ofKind(kind).length, kind).toBeGreaterThan(1);
    const all = kinds.flatMap((kind) => catalog.ofKind(kind).map(({ id }) => id));
    expect(all.toSorted()).toEqual(catalog.ids('parts').toSorted());
    expect(counter().diagnose(PARTS)).toEqual([]);
    expect(readHouse(read('build-sheet.config.yaml'), new Set()).problems).toEqual([]);
  });

  it('prices every part oddly, as no leaflet does', () => {
    const costs = kinds.flatMap((kind) => catalog.ofKind(kind).map(({ cost }) => cost ?? 0));
    expect(costs.filter((cost) => !(cost > 0) || cost % 10 === 0)).toEqual([]);
    expect(new Set(costs).size).toBe(costs.length);
  });
});

describe('a sample of the counter', () => {
  it.each(readdirSync(FOLDER).filter((name) => name.endsWith('.build.yaml')))(
    '%s has nothing to find but what its header promises or is open',
    (name) => {
      const service = counter();
      const uri = `file:///shop/${name}`;
      const text = read(name);
      service.workspace.put({ uri, kind: 'sheet', version: 1, text });
      const promised = text.split('\n').flatMap((line) => /^# finding: (.*)/.exec(line)?.[1] ?? []);
      const codes = service.diagnose(uri).map(({ code }) => code);
      const open = name === 'counter-call.build.yaml' ? ['paper/incomplete', 'plan/stage-without-power'] : [];
      expect(codes.filter((code) => !open.includes(code))).toEqual(promised);
    },
  );
});
