import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Entry } from '../sheet/entry.ts';

const MOST_RANGES = 5000;

/** Sections, items and runs of comment lines that can be folded. */
export function foldingRanges(document: TextDocument, root: Entry): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  const text = document.getText();

  function add(entry: Entry) {
    if (ranges.length >= MOST_RANGES) return;
    if ((entry.kind === 'map' || entry.kind === 'list') && !entry.inherited) {
      const startLine = document.positionAt(entry.key?.start ?? entry.value.start).line;
      const end = entry.value.start + text.slice(entry.value.start, entry.value.end).trimEnd().length;
      const endLine = document.positionAt(end).line;
      if (endLine > startLine) ranges.push({ startLine, endLine });
    }
    entry.children.forEach(add);
  }

  root.children.forEach(add);
  return [...ranges, ...commentRanges(text)].slice(0, MOST_RANGES);
}

function commentRanges(text: string): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  let start = -1;
  const lines = text.split('\n');
  for (let line = 0; line <= lines.length; line++) {
    const isComment = /^\s*#/.test(lines[line] ?? '');
    if (isComment && start < 0) start = line;
    if (!isComment && start >= 0) {
      if (line - start > 1) ranges.push({ startLine: start, endLine: line - 1, kind: FoldingRangeKind.Comment });
      start = -1;
    }
  }
  return ranges;
}
