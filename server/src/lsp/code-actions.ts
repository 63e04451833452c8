import { type CodeAction, CodeActionKind, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Choice, Offer } from '../features/repairs.ts';
import type { TextEdit } from '../sheet/problem.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.buildSheet`;

/** What an action without an edit carries, so that its edit can be made when it is chosen. */
export type Chosen = { uri: string; version: number; choice: Choice };

/** Whether actions of a kind are asked for. */
export function wants(only: readonly string[] | undefined, kind: string): boolean {
  return !only || only.some((one) => kind === one || kind.startsWith(`${one}.`));
}

/** An action without its edit. */
export function actionOf(
  document: TextDocument,
  kind: string,
  offer: Offer,
  mends: CodeAction['diagnostics'] & object,
): CodeAction {
  const chosen: Chosen | undefined = offer.choice && {
    uri: document.uri,
    version: document.version,
    choice: offer.choice,
  };
  return {
    title: offer.title,
    kind,
    ...(mends.length > 0 && { diagnostics: mends }),
    ...(offer.preferred && { isPreferred: true }),
    ...(chosen && !offer.edits && { data: chosen }),
  };
}

/** Edits of a document; for a client that checks versions, of this version only. */
export function workspaceEdit(
  document: TextDocument,
  edits: readonly TextEdit[],
  { takesVersionedEdits }: Client,
): WorkspaceEdit {
  const { uri, version } = document;
  const changes = edits.map(({ start, end, text }) => ({ range: lspRange(document, { start, end }), newText: text }));
  return takesVersionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: changes }] }
    : { changes: { [uri]: changes } };
}
