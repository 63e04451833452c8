import type { TextEdit as LspEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { TextEdit } from '../text/place.ts';
import { lspRange } from './positions.ts';

/** Edits that put the white space of a document in order; none where it is left as it is. */
export function formattingEdits(document: TextDocument, edits: readonly TextEdit[] = []): LspEdit[] {
  return edits.map((edit) => ({ range: lspRange(document, edit), newText: edit.text }));
}
