import type { Range as LspRange } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Range } from '../text/place.ts';

/** A stretch of text as lines and characters. */
export function lspRange(document: TextDocument, { start, end }: Range): LspRange {
  return { start: document.positionAt(start), end: document.positionAt(end) };
}

/** A stretch of text as offsets. */
export function offsetRange(document: TextDocument, { start, end }: LspRange): Range {
  return { start: document.offsetAt(start), end: document.offsetAt(end) };
}
