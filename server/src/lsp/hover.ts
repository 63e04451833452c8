import { type Hover, MarkupKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Explanation } from '../features/hover.ts';
import { markdown } from '../report/markdown.ts';
import { plainText } from '../report/plain-text.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

/** An explanation in the form the client shows, with a way to the whole work where the client has one. */
export function hoverOf(
  document: TextDocument,
  { range, page, hasWork }: Explanation,
  { hoverIn, opensPages }: Client,
): Hover {
  const where = lspRange(document, range);
  const isMarkdown = hoverIn === MarkupKind.Markdown;
  const value = isMarkdown ? markdown(page) : plainText(page);
  const link = isMarkdown && hasWork && opensPages ? ` \u00b7 ${linkTo(document.uri, where.start)}` : '';
  return { contents: { kind: hoverIn, value: afterTitle(value, link) }, range: where };
}

/** The way to more stands beside the title, where no height of the window cuts it off. */
function afterTitle(text: string, link: string): string {
  const end = text.indexOf('\n\n');
  return end < 0 ? text + link : text.slice(0, end) + link + text.slice(end);
}

function linkTo(uri: string, position: object): string {
  const place = encodeURIComponent(JSON.stringify([{ uri, position }])).replaceAll(/[()]/g, (mark) =>
    mark === '(' ? '%28' : '%29',
  );
  return `[Show the work](command:buildSheet.showWork?${place})`;
}
