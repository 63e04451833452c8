import type { TextEdit as LspEdit, Range as LspRange } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Range, TextEdit } from '../text/place.ts';
import { lspRange } from './positions.ts';

/** The lines of a range, whole; a last one of which nothing is in the range is none of them. */
export function wholeLines(document: TextDocument, { start, end }: LspRange): Range {
  const isEmpty = end.character === 0 && end.line > start.line;
  const last = document.offsetAt({ line: isEmpty ? end.line : end.line + 1, character: 0 });
  return { start: document.offsetAt({ line: start.line, character: 0 }), end: last };
}

/** Edits that put the white space of a document in order; none where it is left as it is. */
export function formattingEdits(document: TextDocument, edits: readonly TextEdit[] = []): LspEdit[] {
  return edits.map((edit) => ({ range: lspRange(document, edit), newText: edit.text }));
}
