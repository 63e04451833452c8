import { type QuickPickItem, window, workspace } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

type NewSheet = { kind: string; about: string; text: string };

/** Begins a sheet of a kind that is chosen, not saved yet, and opens it. */
export async function beginSheet(client: LanguageClient): Promise<void> {
  const sheets = await client.sendRequest<NewSheet[]>('buildSheet/newSheets');
  const items: (QuickPickItem & { text: string })[] = sheets.map(({ kind, about, text }) => ({
    label: kind,
    description: about,
    text,
  }));
  const chosen = await window.showQuickPick(items, {
    title: 'New Build Sheet',
    placeHolder: 'What kind of build is it?',
    matchOnDescription: true,
  });
  if (!chosen) return;
  const document = await workspace.openTextDocument({ language: 'build-sheet', content: chosen.text });
  await window.showTextDocument(document);
}
