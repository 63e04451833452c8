import { type CodeAction, CodeActionKind, RequestType, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Range } from '../text/place.ts';
import { workspaceEdit } from './code-actions.ts';
import type { Session } from './session.ts';

/** Accepts what a rule finds, in one stage or in all, for a reason. */
export type AcceptParams = { textDocument: { uri: string }; rule: string; stage?: string; reason: string };

export const acceptRequest = new RequestType<AcceptParams, WorkspaceEdit | null, void>('buildSheet/accept');

/** Answers a client that has asked its user for the reason. */
export function answerAcceptance(session: Session): void {
  session.connection.onRequest(
    acceptRequest,
    session.answering('the acceptance', null, (document, { rule, stage, reason }: AcceptParams) => {
      const edits = session.service.accept(document.uri, { rule, reason, ...(stage !== undefined && { stage }) });
      return edits.length > 0 ? workspaceEdit(document, edits, session.client) : null;
    }),
  );
}

/** Ways to accept what is found in a stretch; a client that cannot ask for the reason gets an empty place for it. */
export function acceptances(session: Session, document: TextDocument, range: Range): CodeAction[] {
  const { service, client } = session;
  const { uri } = document;
  return service.acceptable(uri, range).map(({ rule, stage, mends }) => {
    const where = stage === undefined ? '' : ' in this stage';
    const title = `Accept "${rule}"${where} and say why`;
    const diagnostics = session.shown(document, [mends]);
    const about = { rule, ...(stage !== undefined && { stage }) };
    const action: CodeAction = { title, kind: CodeActionKind.QuickFix, diagnostics };
    if (client.asksReasons)
      return { ...action, command: { title, command: 'buildSheet.accept', arguments: [{ uri, ...about }] } };
    return { ...action, edit: workspaceEdit(document, service.accept(uri, about), client) };
  });
}
