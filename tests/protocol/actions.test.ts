import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeLens, InlayHint, WorkspaceEdit } from 'vscode-languageserver';
import { Client, codes, cursor, pulls, until } from './client.ts';

let client: Client;
let number = 0;
beforeAll(async () => {
  client = await Client.start();
});
afterAll(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
});

/** Opens a sheet whose cursor is marked; its address and the cursor. */
async function opened(marked: string, by = client) {
  const { text, position } = cursor(marked);
  const uri = `file:///shop/action-${number++}.build.yaml`;
  await by.open(uri, text);
  return { uri, text, range: { start: position, end: position } };
}

const refactorings = ['refactor'];

/** What a sheet becomes by the action of a title at the cursor. */
async function changed(marked: string, title: string | RegExp): Promise<string> {
  const { uri, range } = await opened(marked);
  const actions = await client.actions(uri, range, refactorings);
  const action = actions.find((one) => (typeof title === 'string' ? one.title === title : title.test(one.title)));
  if (!action) throw new Error(`only ${actions.map((one) => one.title).join(', ')}`);
  await client.apply(action);
  return client.text(uri);
}

const titles = async (marked: string, only = refactorings) => {
  const { uri, range } = await opened(marked);
  return (await client.actions(uri, range, only)).map(({ title }) => title);
};

describe('a value in another unit', () => {
  it.each([
    ['power: 350‸ hp', 'Write it as 261 kW', 'power: 261 kW'],
    ["power: '350‸ hp' # measured", 'Write it as 261 kW', "power: '261 kW' # measured"],
    ['power: 350‸ +/- 10 hp', 'Write it as 253.5..268.5 kW', 'power: 253.5..268.5 kW'],
  ])('%s', async (before, title, after) => {
    const sheet = (line: string) => `format: 2\nstages:\n  - name: now\n    ${line}\n`;
    expect(await changed(sheet(before), title)).toBe(sheet(after));
  });

  it('is offered for quantities only', async () => {
    expect(
      (await titles('format: 2\nengine: { cylinders: 8‸ }\n')).filter((one) => one.startsWith('Write it as')),
    ).toEqual([]);
  });
});

describe('a section', () => {
  it.each([
    [
      'in braces comes over lines, its comment with its name',
      'fuel-system:\n  pump: { placement: in-tank‸, current: 11 A } # new\n',
      'Write "pump" on lines',
      'fuel-system:\n  pump: # new\n    placement: in-tank\n    current: 11 A\n',
    ],
    [
      'over lines comes back into braces',
      'fuel-system:\n  pump:\n    placement: in-tank‸\n    flow-at: [[40 psi, 270 L/h]]\n  feed: { length: 5 m }\n',
      'Write "pump" on one line',
      'fuel-system:\n  pump: { placement: in-tank, flow-at: [[40 psi, 270 L/h]] }\n  feed: { length: 5 m }\n',
    ],
    [
      'that is an item keeps its dash',
      'stages:\n  - { name: now‸, power: 245 hp }\n  - { name: later }\n',
      'Write this item on lines',
      'stages:\n  - name: now\n    power: 245 hp\n  - { name: later }\n',
    ],
    [
      'with CRLF keeps its line ends',
      'fuel: { grade: e85‸, leaded: false }\r\n',
      'Write "fuel" on lines',
      'fuel:\r\n  grade: e85\r\n  leaded: false\r\n',
    ],
  ])('%s', async (_, before, title, after) => {
    expect(await changed(before, title)).toBe(after);
  });

  it.each([
    ['holds comments', 'fuel:\n  grade: e85‸ # from the farm\n  leaded: false\n'],
    ['takes something over', 'x-f: &f { grade: e85 }\nfuel: { <<: *f, leaded: false‸ }\n'],
    ['would be too long', `title: a\nfuel:\n  grade: e85‸\n  x: "${'long '.repeat(30)}"\n`],
  ])('that %s stays as it is', async (_, marked) => {
    expect((await titles(marked)).filter((one) => /on (one line|lines)$/.test(one))).toEqual([]);
  });
});

describe('a field and the stages', () => {
  const plan = (fuel: string, changes: string) =>
    `format: 2\nfuel: { grade: ${fuel} }\nstages:\n  - { name: now }\n  - { name: blower${changes} }\n`;

  it('goes among what a stage changes', async () => {
    expect(await changed(plan('e85‸', ''), 'Change it in stage "blower"')).toBe(
      plan('e85', ', changes: { fuel: { grade: e85 } }'),
    );
  });

  it('comes back for the whole sheet', async () => {
    const back = 'Take it for the whole sheet, not for this stage alone';
    expect(await changed(plan('gasoline', ', changes: { fuel: { grade: e85‸ } }'), back)).toBe(plan('e85', ''));
  });

  it('is offered once, and not for what a stage cannot change', async () => {
    const some = await titles(plan('e85', ', changes: { fuel: { grade: gasoline‸ } }'));
    expect(some.filter((one) => one.startsWith('Change it'))).toEqual([]);
    expect(
      (await titles('format: 2\ntitle: a‸\nstages: [{ name: now }, { name: b }]\n')).filter((one) =>
        one.startsWith('Change it'),
      ),
    ).toEqual([]);
  });
});

describe('what is missing', () => {
  it('in a section is inserted, left empty', async () => {
    const text = await changed(
      'format: 2\nignition:\n  supply‸: full-voltage\n',
      /^Insert the \d+ fields still asked for in "ignition"$/,
    );
    expect(text).toMatch(/^format: 2\nignition:\n {2}supply: full-voltage\n( {2}[\w-]+:\n)+/);
    expect(text).toContain('  trigger:\n');
  });
});

describe('a finding', () => {
  const points = 'format: 2\nignition: { trigger: contact-points‸ }\n';

  it('is accepted with an empty place for the reason, by a client that cannot ask for it', async () => {
    const { uri, range, text } = await opened(points);
    const action = (await client.actions(uri, range)).find(({ title }) =>
      title.startsWith('Accept "ignition/contact-points"'),
    );
    expect(action?.command).toBeUndefined();
    expect(action?.diagnostics?.map(({ code }) => code)).toEqual(['ignition/contact-points']);
    await client.apply(action);
    expect(client.text(uri)).toBe(`${text}silence:\n  - { rule: ignition/contact-points, reason: }\n`);
    expect(codes(await client.pull(uri))).toContain('ignition/contact-points');
  });

  it('is accepted for the reason that a client of ours has asked for', async () => {
    const ours = await Client.start({ options: { opensPages: true, asksReasons: true } });
    const { uri, range } = await opened(points, ours);
    const action = (await ours.actions(uri, range)).find(({ title }) =>
      title.startsWith('Accept "ignition/contact-points"'),
    );
    expect(action).toMatchObject({
      command: { command: 'buildSheet.accept', arguments: [{ uri, rule: 'ignition/contact-points' }] },
    });
    const edit = await ours.request<WorkspaceEdit>(
      'buildSheet/accept',
      { uri },
      { rule: 'ignition/contact-points', reason: 'museum piece' },
    );
    await ours.apply({ title: '', edit });
    expect(ours.text(uri)).toContain('silence:\n  - { rule: ignition/contact-points, reason: museum piece }\n');
    expect(codes(await ours.pull(uri))).not.toContain('ignition/contact-points');
    await ours.stop();
  });

  it('in one stage of several is accepted there alone, beside what is accepted already', async () => {
    const { uri, range } = await opened(
      'format: 2\nsilence:\n  - { rule: paper/no-handover, reason: not yet }\nstages:\n  - { name: now }\n  - { name: "two, later", changes: { ignition: { trigger: contact-points‸ } } }\n',
    );
    const action = (await client.actions(uri, range)).find(({ title }) =>
      title.startsWith('Accept "ignition/contact-points"'),
    );
    expect(action?.title).toBe('Accept "ignition/contact-points" in this stage and say why');
    await client.apply(action);
    expect(client.text(uri)).toContain(
      'reason: not yet }\n  - { rule: ignition/contact-points, stage: "two, later", reason: }\n',
    );
  });
});

const WAGON = `format: 2
engine: { cylinders: 8, displacement: 4.9 L, peak-power-speed: 5000 rpm, redline: 5500 rpm, idle: 750 rpm }
fuel: { grade: gasoline-e10 }
stages:
  - { name: first summer, power: 245 hp, induction: natural }
throttle-body:
  injectors: { quantity: 4, static-flow: 80 lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms }
fuel-system: { regulator: { pressure: 43.5 psi, reference: atmosphere } }
`;
const everything = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

describe('hints', () => {
  const hints = (by: Client, uri: string) =>
    by.request<InlayHint[]>('textDocument/inlayHint', { uri }, { range: everything });
  const lenses = (by: Client, uri: string) => by.request<CodeLens[]>('textDocument/codeLens', { uri });

  it('are not shown unless asked for', async () => {
    const { uri } = await opened(`${WAGON}#‸`);
    expect(await hints(client, uri)).toEqual([]);
    expect(await lenses(client, uri)).toEqual([]);
  });

  it('tell beside a part the figure nearest to its limit, by the settings of a client that is not asked for them', async () => {
    const by = await Client.start({ options: { settings: { hints: true, stageVerdicts: true } } });
    const { uri } = await opened(`${WAGON}#‸`, by);
    const found = await hints(by, uri);
    const at = (line: number) => found.find(({ position }) => position.line === line);
    expect(at(6)?.label).toMatch(/^[\d.]+ \S+, at (most|least) [\d.]+ \S+: [\w -]+$/);
    expect(at(6)?.position.character).toBe('  injectors:'.length);
    expect(at(4)?.position.character).toBe('  - { name: first summer'.length);
    const [lens] = await lenses(by, uri);
    expect(lens?.range.start.line).toBe(3);
    expect(lens?.command?.title).toMatch(/^first summer: .*checks? open/);
    await by.stop();
  });

  it('follow the settings of a client that is asked for them', async () => {
    const capabilities = {
      ...pulls,
      workspace: { ...pulls.workspace, configuration: true, inlayHint: { refreshSupport: true } },
    };
    let settings: object = { hints: false };
    let refreshes = 0;
    const by = await Client.start({ capabilities }, (connection) => {
      connection.onRequest('workspace/configuration', () => [settings]);
      connection.onRequest('workspace/inlayHint/refresh', () => {
        refreshes++;
        return null;
      });
    });
    const { uri } = await opened(`${WAGON}#‸`, by);
    expect(await hints(by, uri)).toEqual([]);
    settings = { hints: true, units: 'si' };
    await by.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await until(() => refreshes > 0);
    expect((await hints(by, uri)).length).toBeGreaterThan(0);
    await by.stop();
  });
});

describe('the verdict', () => {
  it('counts what is wrong and what could not be checked, stage by stage', async () => {
    const { uri } = await opened(
      'format: 2\nignition: { trigger: contact-points‸ }\nstages: [{ name: now }, { name: later }]\n',
    );
    const verdict = await client.request<{ text: string; errors: number; stages: object[] }>('buildSheet/verdict', {
      uri,
    });
    expect(verdict.text).toMatch(/^\d+ errors?, .*\d+ checks open, \d+ points of installation open$/);
    expect(verdict.errors).toBeGreaterThan(0);
    expect(verdict.stages).toMatchObject([{ name: 'now' }, { name: 'later' }]);
  });
});

describe('the report', () => {
  it('comes as a page and as a file', async () => {
    const { uri } = await opened(`${WAGON}#‸`);
    const page = await client.request<{ markdown: string }>('buildSheet/page', { uri }, { page: 'report' });
    expect(page.markdown).toContain('What each part must be');
    const { html } = await client.request<{ html: string }>('buildSheet/report', { uri });
    expect(html).toMatch(/^<!doctype html>/i);
  });
});
