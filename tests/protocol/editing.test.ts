import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type CodeAction,
  CodeActionTriggerKind,
  type DocumentLink,
  type DocumentSymbol,
  type FoldingRange,
  type Hover,
  type MarkupContent,
  type Position,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Client, codes, cursor, waits } from './client.ts';

let number = 0;
const fresh = () => `file:///shop/sheet-${number++}.build.yaml`;
const pump = `format: 1
title: wagon # mine
fuel-system: { pump: { current: 11 A } }
electrical:
  charging-voltage: 13.8 V
  pump-circuit: { wire: 12 AWG, length: 5 m, fuse: 20 A, relay: true } # as found
  cutoff: { impact: true, stall: true }
`;

let client: Client;
beforeAll(async () => {
  client = await Client.start();
});
afterAll(async () => {
  expect(client.complaints()).toEqual([]);
  await client.stop();
});

async function opened(text: string): Promise<string> {
  const uri = fresh();
  await client.open(uri, text);
  return uri;
}

function markdown(hover: Hover | null): string {
  const contents = hover?.contents as MarkupContent | undefined;
  if (contents?.kind !== 'markdown') throw new Error('no hover in Markdown');
  return contents.value;
}

describe('hover', () => {
  it('tells the meaning of a field, its value in other units and what it decides', async () => {
    const uri = await opened(readFileSync('samples/quarry-wagon.build.yaml', 'utf8'));
    const hover = await client.hover(uri, client.rangeOf(uri, 'static-flow').start);
    const value = markdown(hover);
    expect(value).toContain('**Static flow** `throttle-body.injectors.static-flow`');
    expect(value).toContain('72 lb/h = 756 cm^3/min');
    expect(value).toMatch(/\| figure \| first summer \| camshaft \|/);
    expect(hover?.range).toEqual(client.rangeOf(uri, 'static-flow'));
  });

  it('shows the work beside it, and what the build needs, to a client that opens pages', async () => {
    const uri = await opened(readFileSync('samples/quarry-wagon.build.yaml', 'utf8'));
    const position = client.rangeOf(uri, 'injectors').start;
    const short = markdown(await client.hover(uri, position));
    expect(short).not.toContain('command:');
    expect(short).toMatch(
      /\*\*Needs:\*\* static flow of each of 4 at 43\.5 psi [\d.]+ lb\/h to [\d.]+ lb\/h \(sizes: /,
    );
    const page = (about: object) =>
      client.request<{ title: string; markdown: string } | null>('buildSheet/page', { uri }, about);
    const work = await page({ page: 'work', position });
    expect(work?.title).toBe('The work: Injectors');
    expect(work?.markdown).toContain('source: ');
    expect((await page({ page: 'needs' }))?.markdown).toContain('**Injectors**');
    expect((await page({ page: 'headroom' }))?.markdown).toContain('good to');
    expect(await page({ page: 'work', position: { line: 0, character: 0 } })).toBeNull();
    const editor = await Client.start({ options: { opensPages: true } });
    await editor.open(uri, client.text(uri));
    expect(markdown(await editor.hover(uri, position))).toMatch(
      /\[Show the work\]\(command:buildSheet\.showWork\?[^()\s]+\)\n/,
    );
    await editor.stop();
  });

  it('follows the edits', async () => {
    const uri = await opened('format: 1\nengine: { displacement: 4.9 L }\n');
    const at = client.rangeOf(uri, 'displacement').start;
    expect(markdown(await client.hover(uri, at))).toContain('4.9 L = 299 in^3');
    await client.replace(uri, '4.9 L', '5 L');
    expect(markdown(await client.hover(uri, at))).toContain('5 L = 305.1 in^3');
  });

  it('is silent where the schema knows nothing', async () => {
    const uri = await opened('format: 1\nsite: { hotest: 3 degC }\n');
    expect(await client.hover(uri, client.rangeOf(uri, 'hotest').start)).toBeNull();
    expect(await client.hover(uri, client.rangeOf(uri, '3 degC').start)).toBeNull();
  });
});

describe('completion', () => {
  it('offers the fields that are not written yet, as plain text to insert as it is', async () => {
    const { text, position } = cursor('format: 1\nengine:\n  cylinders: 8\n  ‸\n');
    const uri = await opened(text);
    const { items } = await client.complete(uri, position);
    const labels = items.map(({ label }) => label);
    expect(labels).not.toContain('cylinders');
    const range = { start: position, end: position };
    const plain = { insertTextFormat: 1, insertTextMode: 1 };
    expect(items[labels.indexOf('displacement')]).toMatchObject({
      ...plain,
      textEdit: { newText: 'displacement: ', range },
    });
    expect(items[labels.indexOf('intake')]).toMatchObject({ ...plain, textEdit: { newText: 'intake:\n    ', range } });
  });

  it('sends a snippet only where the cursor goes on within the text', async () => {
    const { text, position } = cursor('format: 1\nfuel-system: { ‸ }\n');
    const { items } = await client.complete(await opened(text), position);
    expect(items.find(({ label }) => label === 'pump')).toMatchObject({
      insertTextFormat: 2,
      textEdit: { newText: 'pump: { $0 \\}' },
    });
    expect(items.find(({ label }) => label === 'feed-rise')).toMatchObject({ insertTextFormat: 1 });
  });

  it('asks to be asked again only while no letter of a unit is typed', async () => {
    const at = async (marked: string) => {
      const { text, position } = cursor(marked);
      return client.complete(await opened(text), position);
    };
    expect((await at('engine:\n  displacement: 350 ‸\n')).isIncomplete).toBe(true);
    expect((await at('engine:\n  displacement: 350 i‸\n')).isIncomplete).toBe(false);
    expect((await at('engine:\n  displacement: 350 in^3‸\n')).items).toEqual([]);
  });

  it('offers choices in braces', async () => {
    const { text, position } = cursor('format: 1\nfuel-system: { pump: { placement: ‸ } }\n');
    const { items } = await client.complete(await opened(text), position);
    expect(items.map(({ label }) => label)).toEqual(['in-tank', 'tank-module', 'surge-tank', 'external']);
  });

  it('offers a client without snippets what it can insert as it is', async () => {
    const plain = await Client.start({ capabilities: waits });
    const { text, position } = cursor('format: 1\nengine:\n  ‸\n');
    const uri = fresh();
    await plain.open(uri, text);
    for (const { textEdit, insertTextFormat } of (await plain.complete(uri, position)).items) {
      expect(insertTextFormat).toBe(1);
      expect(textEdit?.newText).toMatch(/^[\w-]+: ?(\[\[)?$/);
    }
    await plain.stop();
  });
});

describe('a quick fix', () => {
  async function fixesAt(uri: string, part: string): Promise<CodeAction[]> {
    return client.actions(uri, client.rangeOf(uri, part));
  }

  it('makes the finding go away and leaves all else as it is', async () => {
    const uri = await opened(pump);
    expect(codes(await client.pull(uri))).toContain('electrical/voltage-drop');
    const [fix] = (await fixesAt(uri, '12 AWG')).filter(({ title }) => title.startsWith('Run 10 AWG'));
    expect(fix).toMatchObject({ kind: 'quickfix', isPreferred: true });
    expect(fix?.title).toMatch(/\(.* -> .*\)$/);
    expect(fix?.diagnostics?.map(({ code }) => code)).toEqual(['electrical/voltage-drop']);
    await client.apply(fix);
    expect(client.text(uri)).toBe(pump.replace('12 AWG', '10 AWG'));
    expect(codes(await client.pull(uri))).not.toContain('electrical/voltage-drop');
  });

  it.each([
    ['CRLF', (text: string) => text.replaceAll('\n', '\r\n')],
    ['astral characters', (text: string) => text.replace('pump-circuit: {', 'pump-circuit: { # 😀😀\n    ')],
    ['a byte order mark', (text: string) => `\ufeff${text}`],
  ])('stands at its place in a text with %s', async (_, written) => {
    const text = written(pump);
    const uri = await opened(text);
    const [fix] = (await fixesAt(uri, '12 AWG')).filter(({ title }) => title.startsWith('Run 10 AWG'));
    await client.apply(fix);
    expect(client.text(uri)).toBe(text.replace('12 AWG', '10 AWG'));
  });

  it('of a problem writes what was meant', async () => {
    const uri = await opened('format: 1\nengine: { displacment: 4.9 L } # mine\n');
    const [fix] = await fixesAt(uri, 'displacment');
    await client.apply(fix);
    expect(client.text(uri)).toBe('format: 1\nengine: { displacement: 4.9 L } # mine\n');
    expect(codes(await client.pull(uri))).not.toContain('sheet/unknown-field');
  });

  it('of a number without a unit is a choice of the units that give it a possible size', async () => {
    const uri = await opened('format: 1\nsite: { altitude: 900 }\n');
    const fixes = await fixesAt(uri, '900');
    expect(fixes.map(({ title }) => title)).toEqual(['Write "900 m"', 'Write "900 ft"']);
    await client.apply(fixes[0]);
    expect(client.text(uri)).toBe('format: 1\nsite: { altitude: 900 m }\n');
  });

  it('of every finding of a kind mends all of them', async () => {
    const uri = await opened(
      'format: 1\nignition: { supply: ballast-resistor }\nstages:\n  - { name: a }\n  - { name: b, changes: { ignition: { supply: resistance-wire } } }\n',
    );
    expect(codes(await client.pull(uri)).filter((code) => code === 'ignition/ballast')).toHaveLength(2);
    const all = (await fixesAt(uri, 'ballast-resistor')).find(({ title }) => title === 'Fix all of "ignition/ballast"');
    expect(all?.diagnostics).toHaveLength(2);
    await client.apply(all);
    expect(codes(await client.pull(uri))).not.toContain('ignition/ballast');
  });

  it('of one version is not applied to another', async () => {
    const uri = await opened(pump);
    const [fix] = await fixesAt(uri, '12 AWG');
    const made = await client.resolve(fix as CodeAction);
    await client.replace(uri, '# mine', '# ours');
    await expect(client.apply(made)).rejects.toThrow('an edit of version 1');
    await expect(client.apply(fix)).rejects.toThrow('the text has changed');
  });

  it('asked for beside all that is wrong in a line is what mends the line', async () => {
    const uri = await opened(pump);
    const beside = client.rangeOf(uri, ' # as found').end;
    const asked = (position: Position, triggerKind: CodeActionTriggerKind) =>
      client.request<CodeAction[]>(
        'textDocument/codeAction',
        { uri },
        { range: { start: position, end: position }, context: { diagnostics: [], triggerKind } },
      );
    const titles = (actions: CodeAction[]) => actions.map(({ title }) => title);
    expect(titles(await asked(beside, CodeActionTriggerKind.Invoked))).toContainEqual(
      expect.stringMatching(/^Run 10 AWG/),
    );
    expect(await asked(beside, CodeActionTriggerKind.Automatic)).toEqual([]);
    const above = { line: beside.line - 1, character: 0 };
    expect(titles(await asked(above, CodeActionTriggerKind.Invoked)).join()).not.toContain('AWG');
  });

  it('is given only where it is asked for', async () => {
    const uri = await opened(pump);
    const wire = client.rangeOf(uri, '12 AWG');
    expect(await client.actions(uri, client.rangeOf(uri, 'wagon'))).toEqual([]);
    expect(await client.actions(uri, wire, ['refactor.extract'])).toEqual([]);
    expect((await client.actions(uri, wire, ['quickfix'])).length).toBeGreaterThan(0);
  });
});

describe('the next question', () => {
  it('is inserted as an empty field, where it is asked for', async () => {
    const uri = await opened('format: 1\ntitle: wagon # mine\n');
    const title = client.rangeOf(uri, 'title');
    const [action] = await client.actions(uri, title, ['refactor']);
    expect(action?.title).toMatch(/^Insert the next question: How much power .*\?$/);
    await client.apply(action);
    expect(client.text(uri)).toBe('format: 1\ntitle: wagon # mine\nstages:\n  - { power: }\n');
  });

  it('is among what hover on the title tells', async () => {
    const uri = await opened('format: 1\ntitle: wagon\n');
    const hover = markdown(await client.hover(uri, client.rangeOf(uri, 'title').start));
    expect(hover).toMatch(/\*\*To ask next, and \d+ more\*\*/);
    expect(hover).toMatch(/^- How much power .* `stages\[0\]\.power`$/m);
  });

  it('comes first among the fields that are offered', async () => {
    const uri = await opened('format: 1\nengine:\n  cylinders: 8\n  \n');
    await client.pull(uri);
    const fields = (await client.complete(uri, { line: 3, character: 2 })).items;
    expect(fields.slice(0, 2).map(({ label }) => label)).toEqual(['compression-ratio', 'peak-power-speed']);
  });
});

describe('asking', () => {
  type Turn = {
    asking: object;
    edit?: WorkspaceEdit;
    refusal?: string;
    question?: { field: string; written?: string };
  };
  const ask = (uri: string, params: object = {}) =>
    client.connection.sendRequest<Turn>('buildSheet/ask', { textDocument: { uri }, ...params });

  it('puts one question after the other, each answer an edit to be made at once', async () => {
    const uri = await opened('format: 1\n# empty\n');
    const first = await ask(uri);
    expect(first.question?.field).toBe('stages.power');
    const refused = await ask(uri, { asking: first.asking, reply: { answer: 'much' } });
    expect(refused).toMatchObject({ refusal: expect.any(String), question: { field: 'stages.power' } });
    const second = await ask(uri, { asking: refused.asking, reply: { answer: '330' } });
    await client.apply({ title: '', edit: second.edit as WorkspaceEdit });
    expect(client.text(uri)).toBe('format: 1\nstages:\n  - { power: 330 hp }\n# empty\n');
    const back = await ask(uri, { asking: second.asking, reply: 'back' });
    expect(back.question).toMatchObject({ field: 'stages.power', written: '330 hp' });
  });

  it('has nothing to ask of what is no sheet', async () => {
    expect(await ask('file:///shop/none.build.yaml')).toBeNull();
  });
});

describe('fixing everything', () => {
  async function fixAll(text: string): Promise<{ after: string; codes: string[] }> {
    const uri = await opened(text);
    const everything = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    const actions = await client.actions(uri, everything, ['source.fixAll.buildSheet']);
    for (const action of actions) {
      expect(action.kind).toBe('source.fixAll.buildSheet');
      await client.apply(action);
    }
    return { after: client.text(uri), codes: codes(await client.pull(uri)) };
  }

  it('mends spelling and what needs no choice in one go', async () => {
    const { after } = await fixAll(
      'format: 1\nengine: { displacment: 4.9 L }\nfuel-system: { tank: { vent: yes }, pump: { flow-at: [[60 psi, 225 L/h], [40 psi, 270 L/h]] } } # 😀\n',
    );
    expect(after).toBe(
      'format: 1\nengine: { displacement: 4.9 L }\nfuel-system: { tank: { vent: true }, pump: { flow-at: [[40 psi, 270 L/h], [60 psi, 225 L/h]] } } # 😀\n',
    );
  });

  it('mends what it can beside what it cannot', async () => {
    const { after } = await fixAll('format: 1\nnonsense: 1\nfuel: e85\n');
    expect(after).toBe('format: 1\nnonsense: 1\nfuel: { grade: e85 }\n');
  });

  it('buys nothing and changes no wire', async () => {
    expect((await fixAll(pump)).after).toBe(pump);
  });

  it('is offered under the whole kind, and not unasked', async () => {
    const uri = await opened('title: wagon\n');
    const range = client.rangeOf(uri, 'title');
    const kinds = async (only?: string[]) => (await client.actions(uri, range, only)).map(({ kind }) => kind);
    expect(await kinds(['source.fixAll'])).toEqual(['source.fixAll.buildSheet']);
    expect(await kinds(['source'])).toEqual(['source.fixAll.buildSheet']);
    expect(new Set(await kinds())).toEqual(new Set(['quickfix']));
  });

  it('leaves broken text alone', async () => {
    const text = 'format: 1\nfuel-system: { tank: { vent: yes }\n';
    expect((await fixAll(text)).after).toBe(text);
  });
});

describe('the outline', () => {
  it('has sections, parts and named items with their ranges', async () => {
    const uri = await opened('format: 1\nstages:\n  - { name: first summer, power: 245 hp }\n  - power: 300 hp\n');
    const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', { uri });
    expect(symbols.map(({ name }) => name)).toEqual(['format', 'stages']);
    const stages = symbols[1];
    expect(stages?.children?.map(({ name }) => name)).toEqual(['first summer', 'Stage 2']);
    expect(client.document(uri).getText(stages?.selectionRange)).toBe('stages');
  });
});

describe('folding', () => {
  it('has sections, items and runs of comments', async () => {
    const uri = await opened('# one\n# two\nformat: 1\nengine:\n  cylinders: 8\n  intake:\n    pads: 1\n');
    const ranges = await client.request<FoldingRange[]>('textDocument/foldingRange', { uri });
    expect(ranges).toEqual([
      { startLine: 3, endLine: 6 },
      { startLine: 5, endLine: 6 },
      { startLine: 0, endLine: 1, kind: 'comment' },
    ]);
  });
});

describe('links', () => {
  it('lead from a silenced rule to its page', async () => {
    const uri = await opened(
      'format: 1\nsilence:\n  - { rule: ignition/contact-points, reason: running it in }\n  - { rule: no/such, reason: none }\n  - { rule: ../outside-checks, reason: none }\n',
    );
    const links = await client.request<DocumentLink[]>('textDocument/documentLink', { uri });
    expect(links).toHaveLength(1);
    expect(client.document(uri).getText(links[0]?.range)).toBe('ignition/contact-points');
    expect(links[0]?.target).toMatch(/rules\/ignition\/contact-points\.md$/);
  });
});

describe('typing a sheet', () => {
  it('one character after the other is answered at every step', async () => {
    const uri = await opened('');
    const text = 'format: 1\nignition: { trigger: contact-points }\n';
    for (const [index, character] of [...text].entries()) {
      const position = client.document(uri).positionAt(index);
      await client.change(uri, [{ range: { start: position, end: position }, newText: character }]);
      void client.complete(uri, position);
    }
    const found = codes(await client.pull(uri));
    expect(client.text(uri)).toBe(text);
    expect(found).toContain('ignition/contact-points');
  });
});

describe('a comparison', () => {
  it('tells what the change from an earlier text does, and nothing of a text that is not open', async () => {
    const text = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
    const before = await opened(text);
    const uri = await opened(text.replace('trigger: magnetic-pickup', 'trigger: contact-points'));
    const page = (about: object) =>
      client.request<{ title: string; markdown: string } | null>(
        'buildSheet/page',
        { uri },
        { page: 'compare', ...about },
      );
    const told = await page({ before });
    expect(told?.title).toBe('What the change does');
    expect(told?.markdown).toMatch(/^\*\*Worse: 1 new error\.\*\*/);
    expect(told?.markdown).toContain('`ignition.trigger` magnetic-pickup');
    expect(await page({ before: { text } })).toEqual(told);
    expect(await page({ before: 'file:///shop/nowhere.build.yaml' })).toBeNull();
    expect(await page({})).toBeNull();
  });
});

describe('the page of a rule', () => {
  it('tells why it is there and how it is repaired, for those who cannot follow its link', async () => {
    const uri = await opened('format: 2\n');
    const page = (code: string) =>
      client.request<{ markdown: string } | null>('buildSheet/page', { uri }, { page: 'rule', code });
    expect((await page('ignition/contact-points'))?.markdown).toMatch(/\*\*Why\*\*[\s\S]*\*\*How it is repaired\*\*/);
    expect(await page('no/such-rule')).toBeNull();
  });
});

describe('formatting', () => {
  it('puts white space in order, and leaves a broken text as it is', async () => {
    const untidy = 'format:   1\r\nengine: {cylinders: 8,idle: 750 rpm}   # said\r\n\r\n\r\nstages:\r\n- {name: now}';
    const uri = await opened(untidy);
    const options = { tabSize: 8, insertSpaces: false };
    const edits = await client.request<TextEdit[]>('textDocument/formatting', { uri }, { options });
    const tidy =
      'format: 1\r\nengine: { cylinders: 8, idle: 750 rpm }   # said\r\n\r\nstages:\r\n  - { name: now }\r\n';
    expect(TextDocument.applyEdits(TextDocument.create(uri, '', 1, untidy), edits)).toBe(tidy);
    const broken = await opened('engine: {cylinders:   8\n');
    expect(await client.request('textDocument/formatting', { uri: broken }, { options })).toEqual([]);
  });

  it('of a selection puts the white space of its lines in order, and no other', async () => {
    const untidy = 'format:   2\nengine: {cylinders:   8}\nfuel:   {grade: e85}\n';
    const uri = await opened(untidy);
    const range = { start: { line: 1, character: 3 }, end: { line: 2, character: 0 } };
    const options = { tabSize: 2, insertSpaces: true };
    const edits = await client.request<TextEdit[]>('textDocument/rangeFormatting', { uri }, { range, options });
    expect(TextDocument.applyEdits(TextDocument.create(uri, '', 1, untidy), edits)).toBe(
      'format:   2\nengine: { cylinders: 8 }\nfuel:   {grade: e85}\n',
    );
  });

  it('of a selection that cannot be put in order alone changes nothing', async () => {
    const uri = await opened('engine:\n      cylinders: 8\n      idle: 750 rpm\n');
    const range = { start: { line: 1, character: 0 }, end: { line: 1, character: 9 } };
    const options = { tabSize: 2, insertSpaces: true };
    expect(await client.request('textDocument/rangeFormatting', { uri }, { range, options })).toEqual([]);
  });
});
