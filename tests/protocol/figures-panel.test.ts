import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { Client } from './client.ts';

type Cell = {
  text: string;
  isMissed: boolean;
  isOther: boolean;
  bar?: { share: number; low: number; high: number; limit: string };
} | null;
type Figures = {
  title: string;
  version: number;
  columns: { stage: string; kind: string }[];
  places: Range[];
  topics: { heading: string; rows: { figure: string; places: number[]; cells: Cell[] }[] }[];
  findings: { message: string; range: Range }[];
  tried?: { found: string[]; gone: string[] };
  refusal?: string;
};
type Section = {
  questions?: { texts: string[]; left: number };
  drawings?: { svg: string; caption: string; numbers: { head: string[]; rows: string[][] } }[];
};
type Triable = { field: string; value: string; choices: string[] };

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

async function opened(text = WAGON): Promise<string> {
  const uri = `file:///shop/figures-${number++}.build.yaml`;
  await client.open(uri, text);
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
    expect(found.places[row?.places[0] ?? -1]?.start).toEqual(client.rangeOf(uri, 'injectors:').start);
    expect(found.findings.length).toBeGreaterThan(0);
  });

  it('show the way over a tolerance, and of a topic that is shut the heading alone', async () => {
    const uri = await opened(WAGON.replace('80 lb/h', '80 +/- 4 lb/h'));
    const heading = 'Throttle body and injectors';
    const [cell] = cellsOf(await asked(uri), 'duty-peak-power');
    const { low = 0, share = 0, high = 0 } = cell?.bar ?? {};
    expect([low < share, share < high]).toEqual([true, true]);
    const { topics } = await asked(uri, { shut: [heading] });
    expect(topics.find((topic) => topic.heading === heading)?.rows).toEqual([]);
    expect(topics.find((topic) => topic.heading === 'Fuel supply')?.rows.length).toBeGreaterThan(0);
  });

  it('lead to a field that a stage changes', async () => {
    const change = ', changes: { throttle-body: { injectors: { static-flow: 120 lb/h } } } }';
    const uri = await opened(
      WAGON.replace('power: 600 hp, induction: natural }', `power: 600 hp, induction: natural${change}`),
    );
    const { topics, places } = await asked(uri);
    const row = topics.flatMap(({ rows }) => rows).find(({ figure }) => figure === 'injector-flow');
    const starts = row?.places.map((place) => places[place]?.start);
    expect(starts).toContainEqual(client.rangeOf(uri, 'static-flow: 120').start);
    expect(starts).toContainEqual(client.rangeOf(uri, 'static-flow: 80').start);
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
    expect(found.tried?.gone.join()).toContain('injectors need');
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

  it('come with the drawings of the report and their numbers, in which no text of the user is markup', async () => {
    const uri = await opened();
    for (const section of ['curves', 'ladder']) {
      const { drawings = [] } = await client.request<Section>('buildSheet/figuresSection', { uri }, { section });
      expect(drawings.length).toBeGreaterThan(0);
      expect(drawings.some(({ svg }) => /<script|<img|onerror=/.test(svg))).toBe(false);
      for (const { numbers } of drawings) for (const row of numbers.rows) expect(row.length).toBe(numbers.head.length);
    }
  });

  it('come with what to ask next', async () => {
    const { questions } = await client.request<Section>(
      'buildSheet/figuresSection',
      { uri: await opened() },
      { section: 'questions' },
    );
    expect(questions?.texts.length).toBe(8);
    expect(questions?.left).toBeGreaterThan(0);
  });

  it('tell which fields another value can be tried for, with what they are and can be', async () => {
    const fields = await client.request<Triable[]>('buildSheet/triable', { uri: await opened() });
    expect(fields).toContainEqual({ field: FLOW, value: '80 lb/h', choices: [] });
    expect(fields).toContainEqual({ field: 'stages.first summer.power', value: '245 hp', choices: [] });
    expect(fields).toContainEqual({ field: 'site.altitude', value: '', choices: [] });
    expect(fields.find(({ field }) => field === 'fuel.grade')?.choices).toContain('e85');
    expect(new Set(fields.map(({ field }) => field)).size).toBe(fields.length);
  });

  it('are nothing for what is no sheet', async () => {
    expect(await asked('file:///none.build.yaml')).toBeNull();
  });
});
