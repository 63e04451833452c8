import { type QuickPickItem, type TextDocument, ThemeIcon, type WorkspaceEdit, window, workspace } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';
import type { Question, Reply, Turn } from './question.ts';

/** Asks for what is missing in a sheet, question after question, and writes each answer at once; Escape stops. */
export async function ask(client: LanguageClient, document: TextDocument): Promise<void> {
  const uri = client.code2ProtocolConverter.asUri(document.uri);
  const put = (asking?: object, reply?: Reply) =>
    client.sendRequest<Turn<object> | null>('buildSheet/ask', { textDocument: { uri }, asking, reply });
  let turn = await put();
  let refusal: string | undefined;
  while (turn?.question) {
    const reply = await (turn.question.choices.length > 0 ? pick(turn.question) : type(turn.question, refusal));
    if (reply === undefined) return;
    turn = await put(turn.asking, reply);
    refusal = turn?.refusal;
    const edit = turn?.edit && (await client.protocol2CodeConverter.asWorkspaceEdit(turn.edit));
    if (edit && !(await applied(edit))) return;
  }
  if (turn) window.setStatusBarMessage('Build Sheet: nothing is left to ask.', 10_000);
}

async function applied(edit: WorkspaceEdit): Promise<boolean> {
  if (await workspace.applyEdit(edit)) return true;
  window.showErrorMessage('Build Sheet: the sheet changed meanwhile, so the answer was not written. Ask again.');
  return false;
}

const UNKNOWN = 'Not known yet';
const BACK = 'Back';

type Choice = QuickPickItem & { reply: Reply };

/** One of the choices, first the one that is written, else that it is not known yet. */
function pick(question: Question): Promise<Reply | undefined> {
  const { choices, usual, written } = question;
  const items: Choice[] = choices.map(({ value, meaning }) => ({
    label: value,
    description: meaning,
    ...(value === usual?.value && { detail: `Taken until it is known: ${usual.because}` }),
    reply: { answer: value },
  }));
  const open: Choice[] = [
    { label: UNKNOWN, alwaysShow: true, reply: 'unknown' },
    { label: BACK, alwaysShow: true, reply: 'back' },
  ];
  return new Promise((resolve) => {
    const list = window.createQuickPick<Choice>();
    list.title = question.text.replace(/:.*\?/, '?');
    list.placeholder = placeOf(question);
    list.items = [...items, ...open];
    list.matchOnDescription = true;
    list.ignoreFocusOut = true;
    const standing = list.items.find(({ label }) => label === written);
    if (standing) list.activeItems = [standing];
    list.onDidAccept(() => {
      const [chosen] = list.activeItems;
      if (!chosen) return;
      resolve(chosen.label === written ? 'keep' : chosen.reply);
      list.hide();
    });
    list.onDidHide(() => {
      resolve(undefined);
      list.dispose();
    });
    list.show();
  });
}

/** A typed answer; left empty it is not known yet, and what is written already stands there to be kept. */
function type(question: Question, refusal: string | undefined): Promise<Reply | undefined> {
  const { unit, example, usual, written = '' } = question;
  const back = { iconPath: new ThemeIcon('arrow-left'), tooltip: 'Back (type <)' };
  const hints = [
    ...(unit ? [`in ${unit}`] : []),
    ...(example ? [`such as ${example}`] : []),
    ...(usual ? [`${usual.value} is taken until it is known`] : []),
  ];
  return new Promise((resolve) => {
    const box = window.createInputBox();
    const give = (reply: Reply) => {
      resolve(reply);
      box.hide();
    };
    box.title = placeOf(question);
    box.prompt = `${question.text} Enter alone: not known yet. < goes back.`;
    box.placeholder = hints.join('; ');
    box.value = written;
    box.buttons = [back];
    box.ignoreFocusOut = true;
    if (refusal) box.validationMessage = refusal;
    box.onDidChangeValue(() => {
      box.validationMessage = undefined;
    });
    box.onDidTriggerButton(() => give('back'));
    box.onDidAccept(() => {
      const answer = box.value.trim();
      if (answer === '<') give('back');
      else if (answer === '') give('unknown');
      else give(answer === written ? 'keep' : { answer });
    });
    box.onDidHide(() => {
      resolve(undefined);
      box.dispose();
    });
    box.show();
  });
}

/** Where the answer goes, and how many questions come after it. */
function placeOf({ at, left }: Question): string {
  return left === 0 ? `${at}, the last one` : `${at}, ${left} more after it`;
}
