import { type CompletionItem, CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Proposal } from '../features/completion.ts';
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
};

/** Proposals as the client shows them, in the order they have. */
export function completionItems(
  document: TextDocument,
  proposals: readonly Proposal[],
  { takesSnippets, documentationIn }: Client,
): CompletionItem[] {
  const show = documentationIn === 'markdown' ? markdown : plainText;
  return proposals.map((proposal, index) => ({
    label: proposal.label,
    kind: kinds[proposal.kind],
    detail: proposal.detail,
    documentation: { kind: documentationIn, value: show([paragraph(...prose(proposal.documentation))]) },
    sortText: String(index).padStart(4, '0'),
    filterText: proposal.label,
    insertTextFormat: takesSnippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: {
      range: lspRange(document, proposal.replace),
      newText: takesSnippets ? proposal.insert : withoutSnippet(proposal.insert),
    },
  }));
}

/** The text of a snippet for clients without snippets: the first choice or the example in place of each stop. */
function withoutSnippet(snippet: string): string {
  return snippet
    .replaceAll(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
    .replaceAll(/\$\{\d+:((?:\\\}|[^}])*)\}/g, '$1')
    .replaceAll(/\$\d+/g, '')
    .replaceAll('\\}', '}')
    .replaceAll('\\$', '$');
}
