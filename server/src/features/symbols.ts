import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type Entry, wholeRange } from '../sheet/entry.ts';
import { lspRange } from './document.ts';

/** Most symbols of one sheet, so that an outline of a very long sheet does not stall the editor. */
const MOST_SYMBOLS = 2000;

/** The outline of a sheet: sections, parts and named items. */
export function symbolsOf(document: TextDocument, root: Entry): DocumentSymbol[] {
  const text = document.getText();
  let left = MOST_SYMBOLS;

  function symbols(entries: readonly Entry[]): DocumentSymbol[] {
    const found: DocumentSymbol[] = [];
    for (const entry of entries) {
      if (left <= 0) break;
      if (entry.inherited || (!entry.key && entry.kind !== 'map')) continue;
      left--;
      const { start, end } = wholeRange(entry);
      const range = lspRange(document, { start, end: start + text.slice(start, end).trimEnd().length });
      const detail = entry.kind === 'scalar' ? String(entry.scalar) : undefined;
      found.push({
        name: nameOf(entry),
        ...(detail !== undefined && { detail }),
        kind: kindOf(entry),
        range,
        selectionRange: entry.key ? lspRange(document, entry.key) : range,
        children: symbols(entry.children),
      });
    }
    return found;
  }

  return symbols(root.children);
}

function nameOf({ path, children, schema }: Entry): string {
  const step = path.at(-1);
  if (typeof step !== 'number') return String(step) || '(empty)';
  const name = children.find((child) => ['name', 'rule', 'note'].includes(String(child.path.at(-1))))?.scalar;
  return String(name ?? `${schema?.title ?? 'item'} ${step + 1}`) || `item ${step + 1}`;
}

function kindOf({ kind, schema, path }: Entry): SymbolKind {
  if (path[0] === 'stages' && path.length === 2) return SymbolKind.Event;
  if (kind === 'list') return SymbolKind.Array;
  if (kind === 'map') return path.length === 1 ? SymbolKind.Module : SymbolKind.Object;
  if (schema?.enum) return SymbolKind.EnumMember;
  return schema?.type === 'boolean' ? SymbolKind.Boolean : SymbolKind.Property;
}
