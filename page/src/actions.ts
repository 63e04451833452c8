import type { CodeAction, WorkspaceEdit } from 'vscode-languageserver';
import { choose } from './dialog.ts';
import type { Edit, Editor, Range } from './editor.ts';

const KINDS = [
  'quickfix',
  'refactor.insert',
  'refactor.rewrite',
  'refactor.move',
  'refactor.choose',
  'refactor.extract',
];
const REPAIRS = ['quickfix'];

/** The editor something is done in, how a text that is not open is changed with it, and who tells what was done. */
export type Doer = {
  editor: Editor;
  write: (uri: string, edits: readonly Edit[]) => void;
  tell: (text: string) => void;
};

/** Lists what can be done at a place, and does what is picked. */
export async function offerActions(doer: Doer, range: Range, isOfFinding = false): Promise<void> {
  const { editor, tell } = doer;
  tell('Trying what can be done...');
  const context = { diagnostics: [], only: isOfFinding ? REPAIRS : KINDS, triggerKind: 1 };
  const actions = (await editor.ask<CodeAction[]>('textDocument/codeAction', { range, context })) ?? [];
  tell('');
  const items = actions.map((action) => ({
    text: action.title,
    act: () => {
      take(doer, action);
    },
  }));
  choose(
    isOfFinding ? 'What can be done about it' : 'What can be done here',
    items,
    'Nothing that would hold: each repair is tried on a copy first. Explain the field to see what to look at.',
  );
}

async function take({ editor, write, tell }: Doer, action: CodeAction): Promise<void> {
  const { doc } = editor.view.state;
  const made = action.edit
    ? action
    : await editor.client.request<CodeAction, CodeAction>('codeAction/resolve', action).catch(() => action);
  const { [editor.uri]: edits, ...others } = made.edit?.changes ?? {};
  if (!edits || doc !== editor.view.state.doc) return tell('The sheet changed meanwhile; nothing was done.');
  for (const [uri, changes] of Object.entries(others)) write(uri, changes);
  editor.apply(edits);
  editor.view.focus();
  tell(`Done: ${action.title}`);
}

/** The edits of a text, where no other file is edited. */
export function editsFor(uri: string, edit: WorkspaceEdit | undefined) {
  const changes = Object.entries(edit?.changes ?? {});
  return changes.length === 1 && changes[0]?.[0] === uri ? changes[0][1] : undefined;
}
