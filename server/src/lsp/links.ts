import type { DocumentLink } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { RuleLink } from '../features/links.ts';
import type { PageOf } from './diagnostics.ts';
import { lspRange } from './positions.ts';

/** Links to the pages of rules, where there are pages. */
export function documentLinks(document: TextDocument, links: readonly RuleLink[], pageOf: PageOf): DocumentLink[] {
  return links.flatMap(({ range, rule }) => {
    const target = pageOf(rule);
    return target ? [{ range: lspRange(document, range), target }] : [];
  });
}
