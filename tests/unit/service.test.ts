import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Service } from '../../server/src/service.ts';
import { inOneGo } from '../../server/src/text/steps.ts';

const SHEET = 'file:///shop/one.build.yaml';
const HOUSE = 'file:///shop/build-sheet.config.yaml';
const samples = readdirSync('samples')
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => readFileSync(`samples/${name}`, 'utf8'));

let version = 0;
function put(service: Service, text: string, uri = SHEET): void {
  service.workspace.put({ uri, kind: uri === HOUSE ? 'house' : 'sheet', version: version++, text });
}

function serviceWith(text: string): Service {
  const service = new Service();
  put(service, text);
  return service;
}

/** All that is said of a text, with the cursor at an offset. */
function said(service: Service, offset: number) {
  return {
    wrong: service.diagnose(SHEET),
    read: service.explain(SHEET, offset),
    outline: service.outline(SHEET),
    folds: service.folds(SHEET),
    repairs: inOneGo(service.repairs(SHEET, { start: offset, end: offset })),
  };
}

describe('a service', () => {
  it('says the same of a text whatever was open before it', { timeout: 120_000 }, () => {
    const edit = fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      take: fc.nat(12),
      give: fc.constantFrom('', '5', ' ', '\n', '{', '}', ': ', '9 psi', 'x', 'induction: roots', '1.5', '-', '"'),
    });
    fc.assert(
      fc.property(fc.constantFrom(...samples), fc.array(edit, { minLength: 1, maxLength: 8 }), (sample, edits) => {
        const service = serviceWith(sample);
        service.diagnose(SHEET);
        let text = sample;
        for (const { at, take, give } of edits) {
          const offset = Math.floor(at * text.length);
          text = text.slice(0, offset) + give + text.slice(offset + take);
          put(service, text);
          expect(said(service, offset)).toEqual(said(serviceWith(text), offset));
        }
      }),
      { numRuns: 25 },
    );
  });

  it('says the same under house rules that change as under those that were always so', () => {
    const text = samples[0] as string;
    const houses = [
      'units: si\n',
      'limits: { largest-duty: 20 % }\n',
      'rules: { plan/overbuilt: { severity: error } }\n',
      '',
    ];
    const service = serviceWith(text);
    for (const house of [...houses, ...houses.toReversed()]) {
      put(service, house, HOUSE);
      const fresh = serviceWith(text);
      put(fresh, house, HOUSE);
      expect(said(service, 40)).toEqual(said(fresh, 40));
    }
  });

  it('says nothing of a text that is not open, or no longer', () => {
    const service = serviceWith('format: 1\nengine: { cylinders: 8 }\n');
    expect(service.diagnose(SHEET)).not.toEqual([]);
    service.close(SHEET);
    const nothing = { wrong: [], read: undefined, outline: [], folds: [], repairs: [] };
    expect(said(service, 12)).toEqual(nothing);
    expect(service.complete(SHEET, 12)).toBeUndefined();
    expect(service.repairsOfAll(SHEET)).toEqual([]);
    expect(service.faults(SHEET)).toEqual([]);
    expect(inOneGo(service.resolve(SHEET, { all: true }))).toEqual([]);
  });
});
