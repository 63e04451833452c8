import { type Position, RequestType, type TextDocumentIdentifier, type WorkspaceEdit } from 'vscode-languageserver';
import type { PickList } from '../features/part-choice.ts';
import { workspaceEdit } from './code-actions.ts';
import type { Session } from './session.ts';
import { done } from './work.ts';

/** Asks for parts to pick for a slot, for the one at a position, or for all that are open. */
export type PartsParams = { textDocument: TextDocumentIdentifier; slot?: string; position?: Position; all?: boolean };

type Picks = Omit<PickList, 'picks'> & {
  picks: { label: string; figures: string; detail: string; edit: WorkspaceEdit }[];
};

export const partsRequest = new RequestType<PartsParams, Picks | null, void>('buildSheet/parts');

/** How long parts may be tried, in ms, before the rest is left out. */
const PATIENCE = 20_000;

/** Answers with parts to pick, each with the edit that writes it. */
export function answerParts(session: Session): void {
  const { connection, service } = session;
  connection.onRequest(
    partsRequest,
    session.answering('the choice of parts', null, async (document, params: PartsParams, mayGoOn) => {
      const { slot, position, all } = params;
      const at = slot ?? (position ? document.offsetAt(position) : 0);
      const steps = all ? service.pickAllParts(document.uri) : service.pickParts(document.uri, at);
      const list = await done(steps, PATIENCE, mayGoOn);
      if (!list) return null;
      const picks = list.picks.map(({ edits, ...pick }) => ({
        ...pick,
        edit: workspaceEdit(document, edits, session.client),
      }));
      return { ...list, picks };
    }),
  );
}
