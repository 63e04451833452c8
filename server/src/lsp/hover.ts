import { type Hover, MarkupKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Explanation } from '../features/hover.ts';
import { markdown } from '../report/markdown.ts';
import { plainText } from '../report/plain-text.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

/** An explanation in the form the client shows. */
export function hoverOf(document: TextDocument, { range, page }: Explanation, { hoverIn }: Client): Hover {
  const value = hoverIn === MarkupKind.Markdown ? markdown(page) : plainText(page);
  return { contents: { kind: hoverIn, value }, range: lspRange(document, range) };
}
