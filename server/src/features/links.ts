import type { DocumentLink } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { rules } from '../generated/rules.ts';
import type { Entry } from '../sheet/entry.ts';
import type { PageOf } from './diagnostics.ts';
import { lspRange } from './document.ts';

/** Links from the rules a sheet silences to their pages. */
export function linksOf(document: TextDocument, root: Entry, pageOf: PageOf): DocumentLink[] {
  const silence = root.children.find(({ path }) => path[0] === 'silence');
  return (silence?.children ?? []).flatMap((item) => {
    const rule = item.children.find(({ path }) => path.at(-1) === 'rule');
    const isKnown = rule && rules.some(({ id }) => id === rule.scalar);
    const target = isKnown && pageOf(String(rule.scalar));
    return target ? [{ range: lspRange(document, rule.value), target }] : [];
  });
}
