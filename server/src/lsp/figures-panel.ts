import { RequestType, type TextDocumentIdentifier, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Setting } from '../features/what-if.ts';
import type { FiguresShown } from '../service.ts';
import { workspaceEdit } from './code-actions.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';

/**
 * What is shown of a sheet beside it: its figures, also those of an earlier text of it and those with other values, and on
 * request its curves.
 */
export type FiguresParams = {
  textDocument: TextDocumentIdentifier;
  before?: string;
  settings?: readonly Setting[];
  plots?: boolean;
};

type Params = { textDocument: TextDocumentIdentifier; settings: readonly Setting[] };

export const figuresRequest = new RequestType<FiguresParams, object | null, void>('buildSheet/figures');
export const whatIfRequest = new RequestType<Params, WorkspaceEdit | null, void>('buildSheet/whatIf');

/** Answers a client that shows figures beside the sheet, and lets other values be tried there. */
export function answerFigures(session: Session): void {
  const { connection, service } = session;
  connection.onRequest(
    figuresRequest,
    session.answering('the figures', null, (document, { before, settings, plots }: FiguresParams) => {
      const found = service.figures(document.uri, before, settingsOf(settings));
      if (!found) return null;
      const version = document.version;
      return { ...placed(document, found), version, ...(plots && { plots: service.plots(document.uri) }) };
    }),
  );
  connection.onRequest(
    whatIfRequest,
    session.answering('what is tried', null, (document, { settings }: Params) => {
      const edits = service.whatIfEdits(document.uri, settingsOf(settings));
      return edits.length > 0 ? workspaceEdit(document, edits, session.client) : null;
    }),
  );
}

function settingsOf(settings: readonly Setting[] = []): Setting[] {
  return settings.map(({ field, value }) => ({ field: String(field), value: String(value) }));
}

function placed(document: TextDocument, { topics, findings, ...rest }: FiguresShown) {
  return {
    ...rest,
    topics: topics.map(({ heading, rows }) => ({
      heading,
      rows: rows.map((row) => ({ ...row, places: row.places.map((place) => lspRange(document, place)) })),
    })),
    findings: findings.map((finding) => ({ ...finding, range: lspRange(document, finding.range) })),
  };
}
