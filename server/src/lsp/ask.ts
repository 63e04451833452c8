import { RequestType, RequestType0, type WorkspaceEdit } from 'vscode-languageserver';
import { type Asking, beginning, type Reply, type Turn } from '../features/ask.ts';
import { type NewSheet, newSheets } from '../features/new-sheet.ts';
import { workspaceEdit } from './code-actions.ts';
import type { Session } from './session.ts';

/** A reply to the question that is being asked about a document; without an asking the first question is put. */
export type AskParams = { textDocument: { uri: string }; asking?: Asking; reply?: Reply };

/** What comes of a reply, its edits as the client applies them before it puts the question. */
export type AskResult = Omit<Turn, 'edits'> & { edit?: WorkspaceEdit };

/** Puts the questions about a document one after the other. */
export const askRequest = new RequestType<AskParams, AskResult | null, void>('buildSheet/ask');

/** The kinds of sheets that can be begun. */
export const newSheetsRequest = new RequestType0<readonly NewSheet[], void>('buildSheet/newSheets');

/** Answers the requests to ask and to begin. */
export function answerAsking(session: Session): void {
  session.connection.onRequest(newSheetsRequest, newSheets);
  session.connection.onRequest(
    askRequest,
    session.answering('asking', null, (document, { asking = beginning, reply }: AskParams): AskResult | null => {
      const turn = session.service.ask(document.uri, asking, reply);
      if (!turn) return null;
      const { edits, ...rest } = turn;
      return edits.length > 0 ? { ...rest, edit: workspaceEdit(document, edits, session.client) } : rest;
    }),
  );
}
