import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Fold } from '../features/folding.ts';
import type { Client } from './client.ts';

/** Folds by whole lines, as many as the client takes. */
export function foldingRanges(document: TextDocument, folds: readonly Fold[], { mostFolds }: Client): FoldingRange[] {
  return folds.slice(0, mostFolds).map(({ start, end, comment }) => ({
    startLine: document.positionAt(start).line,
    endLine: document.positionAt(end).line,
    ...(comment && { kind: FoldingRangeKind.Comment }),
  }));
}
