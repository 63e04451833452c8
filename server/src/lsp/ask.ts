import { RequestType, type WorkspaceEdit } from 'vscode-languageserver';
import { type Asking, beginning, type Reply, type Turn } from '../features/ask.ts';
import { workspaceEdit } from './code-actions.ts';
import type { Session } from './session.ts';

/** A reply to the question that is being asked about a document; without an asking the first question is put. */
export type AskParams = { textDocument: { uri: string }; asking?: Asking; reply?: Reply };

/** What comes of a reply, its edits as the client applies them before it puts the question. */
export type AskResult = Omit<Turn, 'edits'> & { edit?: WorkspaceEdit };

/** Puts the questions about a document one after the other. */
export const askRequest = new RequestType<AskParams, AskResult | null, void>('buildSheet/ask');

/** Answers the request to ask. */
export function answerAsking(session: Session): void {
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
