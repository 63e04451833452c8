import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  InsertTextMode,
  type Range,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Completion, Proposal } from '../features/completion.ts';
import { markdown } from '../report/markdown.ts';
import { paragraph, prose } from '../report/page.ts';
import { plainText } from '../report/plain-text.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

const kinds: Record<Proposal['kind'], CompletionItemKind> = {
  field: CompletionItemKind.Field,
  choice: CompletionItemKind.EnumMember,
  value: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
  sheet: CompletionItemKind.Snippet,
};

/** Proposals as the client shows them, in the order they have, each to be inserted as it is. */
export function completionList(
  document: TextDocument,
  { proposals, replace, incomplete }: Completion,
  { takesSnippets, documentationIn }: Client,
): CompletionList {
  const show = documentationIn === 'markdown' ? markdown : plainText;
  const range = lspRange(document, replace);
  const offered = takesSnippets ? proposals : proposals.filter(({ kind }) => kind !== 'sheet');
  const items = offered.map((proposal, index) => ({
    label: proposal.label,
    kind: kinds[proposal.kind],
    detail: proposal.detail,
    documentation: { kind: documentationIn, value: show([paragraph(...prose(proposal.documentation))]) },
    sortText: String(index).padStart(4, '0'),
    filterText: proposal.filter ?? proposal.label,
    insertTextMode: InsertTextMode.asIs,
    ...inserted(proposal, range, takesSnippets),
  }));
  return { isIncomplete: incomplete, items };
}

/**
 * The text of a proposal: a snippet only where the cursor goes on within it, since a snippet always counts as a change.
 * A client without snippets, which may well insert no more than a line either, gets what is before the cursor on that line.
 */
function inserted({ insert, cursor }: Proposal, range: Range, takesSnippets: boolean): Partial<CompletionItem> {
  const plain = (newText: string) => ({ insertTextFormat: InsertTextFormat.PlainText, textEdit: { range, newText } });
  if (!takesSnippets) return plain(insert.slice(0, cursor).replace(/\n.*/s, ''));
  if (cursor === undefined) return plain(insert);
  const newText = `${escaped(insert.slice(0, cursor))}$0${escaped(insert.slice(cursor))}`;
  return { insertTextFormat: InsertTextFormat.Snippet, textEdit: { range, newText } };
}

/** A text as it stands in a snippet. */
function escaped(text: string): string {
  return text.replaceAll(/[\\$}]/g, '\\$&');
}
