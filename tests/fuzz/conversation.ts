import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import { Client, uriOf } from '../protocol/client.ts';
import { anEdit, cursorOf, type Edit, edited } from './edit.ts';
import { must } from './must.ts';
import { sources } from './sources.ts';

/** What a person does with a sheet in an editor, beside the house rules of its folder. */
export type Step =
  | { does: 'edit'; edit: Edit }
  | { does: 'close and open' }
  | { does: 'ask and leave'; edit: Edit }
  | { does: 'change the house'; house: string | undefined };

export type Conversation = { text: string; steps: Step[] };

export type Counted = { steps: number; edits: number };

const houses = [
  undefined,
  '',
  'rules: { ignition/contact-points: { severity: warning } }\n',
  'rules: { ignition/contact-points: { severity: "off", reason: museum piece } }\n',
  'limits: { duty: 70 % }\nunits: si\n',
  'limits: { duty: [',
  'limits: { duty: many }\nrules: { none/such: { severity: error } }\n',
  '- a list\n',
  `${'# long\n'.repeat(200_000)}`,
];

const anyEdit = anEdit.map((edit) => ({ ...edit, goesBack: false, withFresh: false, withActions: false }));

const aStep: fc.Arbitrary<Step> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ does: fc.constant('edit' as const), edit: anyEdit }) },
  { weight: 1, arbitrary: fc.constant({ does: 'close and open' as const }) },
  { weight: 2, arbitrary: fc.record({ does: fc.constant('ask and leave' as const), edit: anyEdit }) },
  {
    weight: 2,
    arbitrary: fc.record({ does: fc.constant('change the house' as const), house: fc.constantFrom(...houses) }),
  },
);

export const aConversation: fc.Arbitrary<Conversation> = fc.record({
  text: fc.constantFrom(...sources()),
  steps: fc.array(aStep, { minLength: 5, maxLength: 100, size: 'max' }),
});

/** @throws Error at the first step after which a server does not answer as one that was just started */
export async function hold({ text: opened, steps }: Conversation, counted: Counted): Promise<void> {
  const shop = mkdtempSync(join(tmpdir(), 'shop-'));
  const house = join(shop, 'build-sheet.config.yaml');
  const uri = uriOf(join(shop, 'one.build.yaml'));
  const client = await Client.start({ folders: [uriOf(shop)] });
  try {
    await client.open(uri, opened);
    for (const step of steps) {
      counted.steps++;
      if (step.does === 'change the house') {
        if (step.house === undefined) rmSync(house, { force: true });
        else writeFileSync(house, step.house);
        await client.touched(uriOf(house));
      } else if (step.does === 'close and open') {
        const text = client.text(uri);
        await client.close(uri);
        await client.open(uri, text);
      } else {
        counted.edits++;
        await type(client, uri, edited(client.text(uri), step.edit));
        if (step.does === 'ask and leave') await askAndLeave(client, uri, step.edit);
      }
    }
    await sameAsFresh(client, uri, shop, steps.at(-1));
    const complaints = client.complaints();
    must(complaints.length === 0, `complaints: ${complaints.join('; ')}`);
    must((await client.stop()) === 0, 'the server ended badly');
  } finally {
    client.kill();
    rmSync(shop, { recursive: true });
  }
}

/** Sends what differs, as an editor does. */
async function type(client: Client, uri: string, text: string): Promise<void> {
  const before = client.text(uri);
  let start = 0;
  while (start < Math.min(before.length, text.length) && before[start] === text[start]) start++;
  while (start > 0 && (isCut(before, start) || isCut(text, start))) start--;
  let left = 0;
  const most = Math.min(before.length, text.length) - start;
  while (left < most && before.at(-1 - left) === text.at(-1 - left)) left++;
  while (left > 0 && (isCut(before, before.length - left) || isCut(text, text.length - left))) left--;
  const document = client.document(uri);
  const range = { start: document.positionAt(start), end: document.positionAt(before.length - left) };
  await client.change(uri, [{ range, newText: text.slice(start, text.length - left) }]);
  must(client.text(uri) === text, 'the edit sent is not the edit meant');
}

/** Whether a place stands between the halves of a character or of a line's end. */
function isCut(text: string, at: number): boolean {
  return /^(?:[\ud800-\udbff][\udc00-\udfff]|\r\n)$/.test(text.slice(at - 1, at + 1));
}

/** Asks for all there is and waits for none of it. */
async function askAndLeave(client: Client, uri: string, edit: Edit): Promise<void> {
  const token = new CancellationTokenSource();
  const at = client.document(uri).positionAt(cursorOf(client.text(uri), edit));
  const answers = ['textDocument/diagnostic', 'textDocument/codeAction', 'textDocument/hover'].map((method) =>
    client
      .request(
        method,
        { uri },
        { position: at, range: { start: at, end: at }, context: { diagnostics: [] } },
        token.token,
      )
      .catch(() => undefined),
  );
  token.cancel();
  await Promise.all(answers);
}

/** How often to ask again: house rules are read while answers go on, and the editor is then told to ask anew. */
const TRIES = 50;

async function sameAsFresh(client: Client, uri: string, shop: string, last: Step | undefined): Promise<void> {
  const fresh = await Client.start({ folders: [uriOf(shop)] });
  try {
    await compare(client, fresh, uri, last);
    await fresh.stop();
  } finally {
    fresh.kill();
  }
}

async function compare(client: Client, fresh: Client, uri: string, last: Step | undefined): Promise<void> {
  await fresh.open(uri, client.text(uri));
  const edit = last && 'edit' in last ? last.edit : undefined;
  const at = client.document(uri).positionAt(edit ? cursorOf(client.text(uri), edit) : 0);
  for (const [name, ask] of Object.entries(questions)) {
    const anew = await ask(fresh, uri, at);
    let told = await ask(client, uri, at);
    for (let tries = 0; tries < TRIES && !isDeepStrictEqual(told, anew); tries++) {
      await sleep(100);
      told = await ask(client, uri, at);
    }
    must(
      isDeepStrictEqual(told, anew),
      `${name}: ${JSON.stringify(told)}\nbut of a server just started: ${JSON.stringify(anew)}`,
    );
  }
}

type Position = { line: number; character: number };

const questions: Record<string, (client: Client, uri: string, at: Position) => Promise<unknown>> = {
  diagnostics: (client, uri) => client.pull(uri),
  hover: (client, uri, at) => client.hover(uri, at),
  completion: (client, uri, at) => client.complete(uri, at),
  actions: async (client, uri, at) => (await client.actions(uri, { start: at, end: at })).map(({ title }) => title),
  outline: (client, uri) => client.request('textDocument/documentSymbol', { uri }),
  folds: (client, uri) => client.request('textDocument/foldingRange', { uri }),
};
