import type { CodeAction, WorkspaceEdit } from 'vscode-languageserver';
import { choose } from './dialog.ts';
import type { Editor, Range } from './editor.ts';

const KINDS = ['quickfix', 'refactor.insert', 'refactor.rewrite', 'refactor.move', 'refactor.choose'];
const REPAIRS = ['quickfix'];

/** Lists what can be done at a place, and does what is picked. */
export async function offerActions(
  editor: Editor,
  range: Range,
  tell: (text: string) => void,
  isOfFinding = false,
): Promise<void> {
  tell('Trying what can be done...');
  const context = { diagnostics: [], only: isOfFinding ? REPAIRS : KINDS, triggerKind: 1 };
  const actions = (await editor.ask<CodeAction[]>('textDocument/codeAction', { range, context })) ?? [];
  tell('');
  const items = actions.map((action) => ({
    text: action.title,
    act: () => {
      take(editor, action, tell);
    },
  }));
  choose(
    isOfFinding ? 'What can be done about it' : 'What can be done here',
    items,
    'Nothing that would hold: each repair is tried on a copy first. Explain the field to see what to look at.',
  );
}

async function take(editor: Editor, action: CodeAction, tell: (text: string) => void): Promise<void> {
  const { doc } = editor.view.state;
  const made = action.edit
    ? action
    : await editor.client.request<CodeAction, CodeAction>('codeAction/resolve', action).catch(() => action);
  const edits = editsFor(editor.uri, made.edit);
  if (!edits || doc !== editor.view.state.doc) return tell('The sheet changed meanwhile; nothing was done.');
  editor.apply(edits);
  editor.view.focus();
  tell(`Done: ${action.title}`);
}

/** The edits of a text, where no other file is edited. */
export function editsFor(uri: string, edit: WorkspaceEdit | undefined) {
  const changes = Object.entries(edit?.changes ?? {});
  return changes.length === 1 && changes[0]?.[0] === uri ? changes[0][1] : undefined;
}
