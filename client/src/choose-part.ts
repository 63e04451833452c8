import { ProgressLocation, type QuickPickItem, QuickPickItemKind, type WorkspaceEdit, window, workspace } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

type Part = { label: string; figures: string; detail: string };
type Picks = {
  slot: string;
  title: string;
  picks: readonly (Part & { edit: object })[];
  missed: readonly Part[];
  untried: number;
};
type Item = QuickPickItem & { edit?: object };

/** Lists the parts of the catalogs for a slot, or for the one at the cursor, with their figures, and writes the one picked. */
export async function choosePart(client: LanguageClient, at?: string, slot?: string): Promise<void> {
  const editor = window.activeTextEditor;
  const position = editor && client.code2ProtocolConverter.asPosition(editor.selection.active);
  await pick(client, at, slot ? { slot } : { position });
}

/** Lists parts of the catalogs for all that is open at once, and writes those picked. */
export async function chooseAllParts(client: LanguageClient): Promise<void> {
  await pick(client, undefined, { all: true });
}

async function pick(client: LanguageClient, at: string | undefined, what: object): Promise<void> {
  const editor = window.activeTextEditor;
  const uri = at ?? (editor && client.code2ProtocolConverter.asUri(editor.document.uri));
  if (!uri) return;
  const found = await window.withProgress({ location: ProgressLocation.Window, title: 'Trying parts' }, () =>
    client.sendRequest<Picks | null>('buildSheet/parts', { textDocument: { uri }, ...what }),
  );
  if (!found) {
    window.showInformationMessage(
      'Put the cursor on a part, such as pump, of a sheet whose house rules name catalogs.',
    );
    return;
  }
  if (found.picks.length + found.missed.length + found.untried === 0) {
    window.showInformationMessage('The catalogs have nothing for what is open in this sheet.');
    return;
  }
  const picked = await window.showQuickPick(itemsOf(found), {
    title: `Parts for: ${found.title}${found.untried > 0 ? `; time was up before ${found.untried} more were tried` : ''}`,
    placeHolder: 'What does it in every stage, the cheapest first',
    matchOnDescription: true,
    matchOnDetail: true,
  });
  const edit = picked?.edit && (await client.protocol2CodeConverter.asWorkspaceEdit(picked.edit));
  if (edit) await write(edit);
}

function itemsOf({ picks, missed }: Picks): Item[] {
  const fitting = picks.map(({ label, figures, detail, edit }) => ({ label, description: figures, detail, edit }));
  const others = missed.map(({ label, figures, detail }) => ({ label, description: figures, detail }));
  const line = { label: 'These do not do it', kind: QuickPickItemKind.Separator };
  return [...fitting, ...(others.length > 0 ? [line, ...others] : [])];
}

async function write(edit: WorkspaceEdit): Promise<void> {
  if (await workspace.applyEdit(edit)) return;
  window.showErrorMessage('Build Sheet: the sheet changed meanwhile, so nothing was written. Choose again.');
}
