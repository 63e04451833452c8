import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { OutlineItem } from '../features/symbols.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

const kinds: Record<OutlineItem['kind'], SymbolKind> = {
  stage: SymbolKind.Event,
  section: SymbolKind.Module,
  fields: SymbolKind.Object,
  list: SymbolKind.Array,
  choice: SymbolKind.EnumMember,
  truth: SymbolKind.Boolean,
  value: SymbolKind.Property,
};

/** The outline as a tree, or as a list for a client that shows no trees. */
export function symbolsOf(
  document: TextDocument,
  outline: readonly OutlineItem[],
  { takesTrees }: Client,
): DocumentSymbol[] | SymbolInformation[] {
  return takesTrees ? outline.map((item) => tree(document, item)) : outline.flatMap((item) => list(document, item));
}

function tree(document: TextDocument, { name, detail, kind, range, selection, children }: OutlineItem): DocumentSymbol {
  return {
    name,
    ...(detail !== undefined && { detail }),
    kind: kinds[kind],
    range: lspRange(document, range),
    selectionRange: lspRange(document, selection),
    children: children.map((child) => tree(document, child)),
  };
}

function list(document: TextDocument, item: OutlineItem, containerName?: string): SymbolInformation[] {
  const location = { uri: document.uri, range: lspRange(document, item.range) };
  const own = { name: item.name, kind: kinds[item.kind], location, ...(containerName && { containerName }) };
  return [own, ...item.children.flatMap((child) => list(document, child, item.name))];
}
