import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { WaitingCost } from '../../../server/src/fit/waiting.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { open, PARTS, SHEET, shop } from '../catalog/shop.ts';

const injectors = (id: string, cost: number | undefined, flow: number) =>
  `  - { id: ${id}, ${cost === undefined ? '' : `cost: ${cost}, `}injectors: { static-flow: ${flow} lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms } }\n`;
const sensor = (id: string, cost: number, range: number) =>
  `  - { id: ${id}, cost: ${cost}, manifold-pressure-sensor: { range: ${range} kPa } }\n`;

/** The wagon with a stage that its injectors and its pressure sensor do not do. */
const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8')
  .replace(/camshaft, power: 290 hp(.*), induction: natural/, 'blower, power: 400 hp$1, induction: turbo, boost: 5 psi')
  .replace(/injectors: \{.*\}$/m, 'injectors: { use: i-62, quantity: 4, firing: twice-per-cycle }')
  .replace('manifold-pressure: { range: 110 kPa }', 'manifold-pressure: { use: map-110 }');

function waitingFor(catalog: string): WaitingCost {
  const service = shop({ [PARTS]: `format: 1\nparts:\n${catalog}` });
  open(service, SHEET, wagon);
  const fit = inOneGo(service.fit(SHEET, 'coil'));
  if (!fit) throw new Error('no sheet');
  return fit.waiting;
}

const small = injectors('i-62', 31.25, 62);
const large = injectors('i-110', 44.1, 110);
const sensors = sensor('map-110', 22.5, 110) + sensor('map-210', 39.9, 210);

describe('the cost of waiting', () => {
  it('is what is paid for parts that are replaced, worked by hand', { timeout: 60_000 }, () => {
    const { parts, now, later } = waitingFor(small + large + sensors);
    // Four injectors at 44.10 are 176.40; with four at 31.25, 125.00, bought before them 301.40.
    const four = parts.find(({ slot }) => slot.name === 'injectors');
    expect(four).toMatchObject({ stage: 'blower', present: 'i-62', now: { id: 'i-110', cost: 176.4 } });
    expect(four?.later).toBeCloseTo(301.4, 9);
    expect(four?.more).toBeCloseTo(125, 9);
    // One sensor at 39.90; with one at 22.50 before it 62.40.
    const map = parts.find(({ slot }) => slot.name === 'manifold-pressure-sensor');
    expect(map).toMatchObject({ present: 'map-110', now: { id: 'map-210', cost: 39.9 } });
    expect(map?.later).toBeCloseTo(62.4, 9);
    expect(map?.more).toBeCloseTo(22.5, 9);
    expect(parts).toHaveLength(2);
    // 176.40 + 39.90 now; 301.40 + 62.40 later.
    expect(now).toBeCloseTo(216.3, 9);
    expect(later).toBeCloseTo(363.8, 9);
  });

  it('is that of the smaller purchase later: injectors within a throttle body, or another throttle body', () => {
    const catalog = readFileSync('samples/counter/shelf.parts.yaml', 'utf8');
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, readFileSync('samples/counter/two-summers.build.yaml', 'utf8'));
    const fit = inOneGo(service.fit(SHEET, 'coil'));
    const [body, sensor, pump, ...others] = fit?.waiting.parts ?? [];
    expect(others).toEqual([]);
    // A larger body at 1466.20; or the present one at 1312.75 and later four injectors at 49.80: 1511.95, 45.75 more.
    expect(body).toMatchObject({ slot: { name: 'throttle-body' }, stage: 'roots blower', present: 'body-4-45' });
    expect(body).toMatchObject({ now: { id: 'body-4-47', cost: 1466.2 }, again: { id: 'inj-77' } });
    expect(body?.later).toBeCloseTo(1511.95, 9);
    expect(body?.more).toBeCloseTo(45.75, 9);
    // 47.85; or 33.40 and 47.85 later, 81.25.
    expect(sensor).toMatchObject({ present: 'map-108', now: { id: 'map-207', cost: 47.85 } });
    expect(sensor?.more).toBeCloseTo(33.4, 9);
    // 141.75; or 118.40 and 141.75 later, 260.15.
    expect(pump).toMatchObject({ present: 'tank-pump-148', now: { id: 'tank-pump-193', cost: 141.75 } });
    expect(pump?.later).toBeCloseTo(260.15, 9);
    // 1466.20 + 47.85 + 141.75 now; 1511.95 + 81.25 + 260.15 later.
    expect(fit?.waiting.now).toBeCloseTo(1655.8, 9);
    expect(fit?.waiting.later).toBeCloseTo(1853.35, 9);
  });

  it('is not known where a price is not, and never taken for nothing', { timeout: 60_000 }, () => {
    const { parts, now, later } = waitingFor(injectors('i-62', undefined, 62) + large + sensors);
    const one = parts.find(({ slot }) => slot.name === 'injectors');
    expect(one).toMatchObject({ now: { id: 'i-110', cost: 176.4 }, later: undefined, more: undefined });
    expect(now).toBeCloseTo(216.3, 9);
    expect(later).toBeUndefined();
  });

  it('has nothing to buy now where the catalogs have nothing that lasts', { timeout: 60_000 }, () => {
    const { parts, now } = waitingFor(small + sensors);
    expect(parts.find(({ slot }) => slot.name === 'injectors')).toMatchObject({ now: undefined, later: undefined });
    expect(now).toBeUndefined();
  });

  it('stands in the report', { timeout: 60_000 }, () => {
    const service = shop({ [PARTS]: `format: 1\nparts:\n${small}${large}${sensors}` });
    open(service, SHEET, wagon);
    const report = inOneGo(service.report(SHEET));
    const section = report?.sections.find(({ heading }) => heading === 'The cost of waiting');
    const text = JSON.stringify(section?.page);
    for (const told of ['216.30 USD', '363.80 USD', '176.40 USD', '301.40 USD', '125.00 USD'])
      expect(text).toContain(told);
  });
});
