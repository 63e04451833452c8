import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { Client } from './client.ts';

type Cell = { text: string; isMissed: boolean; isOther: boolean; bar?: { share: number; limit: string } } | null;
type Figures = {
  title: string;
  version: number;
  columns: { stage: string; kind: string }[];
  topics: { heading: string; rows: { figure: string; places: Range[]; cells: Cell[] }[] }[];
  findings: { message: string; range: Range }[];
  fields: { field: string; value: string }[];
  refusal?: string;
  plots?: { svg: string }[];
};

const WAGON = `format: 2
title: <img src=x onerror=alert(1)>
engine: { cylinders: 8, displacement: 4.9 L, peak-power-speed: 5000 rpm, redline: 5400 rpm, idle: 750 rpm }
fuel: { grade: gasoline-e10 }
stages:
  - { name: first summer, power: 245 hp, induction: natural }
  - { name: "</svg><script>", power: 600 hp, induction: natural }
throttle-body:
  injectors: { quantity: 4, static-flow: 80 lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms }
fuel-system: { regulator: { pressure: 43.5 psi, reference: atmosphere } }
`;
const FLOW = 'throttle-body.injectors.static-flow';

let client: Client;
let number = 0;
beforeAll(async () => {
  client = await Client.start();
});
afterAll(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
});

async function opened(): Promise<string> {
  const uri = `file:///shop/figures-${number++}.build.yaml`;
  await client.open(uri, WAGON);
  return uri;
}

const asked = (uri: string, params: object = {}) => client.request<Figures>('buildSheet/figures', { uri }, params);
const cellsOf = ({ topics }: Figures, figure: string) =>
  topics.flatMap(({ rows }) => rows).find((row) => row.figure === figure)?.cells ?? [];

describe('the figures beside a sheet', () => {
  it('are by topic and stage, with their limits and the places of their fields', async () => {
    const uri = await opened();
    const found = await asked(uri);
    expect(found).toMatchObject({ version: 1, columns: [{ kind: 'now' }, { kind: 'now' }] });
    const [first, second] = cellsOf(found, 'duty-peak-power');
    expect(first).toMatchObject({ isMissed: false, isOther: false, bar: { limit: 'at most 85 %' } });
    expect(second).toMatchObject({ isMissed: true });
    expect(second?.bar?.share).toBeGreaterThan(1);
    const row = found.topics.flatMap(({ rows }) => rows).find(({ figure }) => figure === 'duty-peak-power');
    expect(row?.places[0]?.start).toEqual(client.rangeOf(uri, 'injectors:').start);
    expect(found.fields).toContainEqual({ field: FLOW, value: '80 lb/h' });
    expect(found.findings.length).toBeGreaterThan(0);
  });

  it('stand beside those with other values, and the text stays as it is until they are written', async () => {
    const uri = await opened();
    const settings = [
      { field: FLOW, value: '120 lb/h' },
      { field: 'stages.first summer.power', value: '260 hp' },
    ];
    const found = await asked(uri, { settings });
    expect(found.columns.map(({ kind }) => kind)).toEqual(['now', 'tried', 'now', 'tried']);
    const [now, tried] = cellsOf(found, 'injector-flow');
    expect([now?.isOther, tried?.isOther]).toEqual([false, true]);
    expect(client.text(uri)).toBe(WAGON);
    const edit = await client.request<object>('buildSheet/whatIf', { uri }, { settings });
    await client.apply({ title: 'write', edit });
    expect(client.text(uri)).toBe(WAGON.replace('80 lb/h', '120 lb/h').replace('245 hp', '260 hp'));
  });

  it('tell why another value cannot be tried, and write nothing of it', async () => {
    const uri = await opened();
    const settings = [{ field: FLOW, value: '80 apples' }];
    expect((await asked(uri, { settings })).refusal).toContain(`${FLOW} = 80 apples does not hold`);
    expect(await client.request('buildSheet/whatIf', { uri }, { settings })).toBeNull();
  });

  it('stand beside those of an earlier text', async () => {
    const uri = await opened();
    const found = await asked(uri, { before: WAGON.replace('80 lb/h', '60 lb/h') });
    expect(found.columns.map(({ kind }) => kind)).toEqual(['now', 'was', 'now', 'was']);
    expect(cellsOf(found, 'injector-flow')[1]?.isOther).toBe(true);
    expect(cellsOf(found, 'demand-by-power')[1]?.isOther).toBe(false);
  });

  it('come with the curves of the report, in which no text of the user is markup', async () => {
    const { plots = [] } = await asked(await opened(), { plots: true });
    expect(plots.length).toBeGreaterThan(0);
    expect(plots.some(({ svg }) => /<script|<img|onerror=/.test(svg))).toBe(false);
  });

  it('are nothing for what is no sheet', async () => {
    expect(await asked('file:///none.build.yaml')).toBeNull();
  });
});
