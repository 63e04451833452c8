import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  CodeActionTriggerKind,
  type Diagnostic,
  LSPErrorCodes,
  MessageType,
  type Position,
  ResponseError,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Choice, Offer } from '../features/repairs.ts';
import type { Range, TextEdit } from '../text/place.ts';
import { acceptances } from './accept.ts';
import type { Client } from './client.ts';
import { EXTRACT, extractActions } from './extract.ts';
import { guarded } from './guard.ts';
import { lspRange, offsetRange } from './positions.ts';
import type { Session } from './session.ts';
import { done } from './work.ts';

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.buildSheet`;
export const PART = `${CodeActionKind.Refactor}.choose.buildSheet`;
export const QUESTION = `${CodeActionKind.Refactor}.insert.buildSheet`;
export const REWRITE = `${CodeActionKind.RefactorRewrite}.buildSheet`;
export const MOVE = `${CodeActionKind.Refactor}.move.buildSheet`;

const kindsOfActions = { insert: QUESTION, rewrite: REWRITE, move: MOVE };

/** How long repairs may be tried while they are listed, and once they have to be made, in ms. */
const LISTING = 150;
const MAKING = 5000;

/** What an action without an edit carries, so that its edit can be made when it is chosen. */
type Chosen = { uri: string; version: number; choice: Choice };

/** Lists repairs, and makes those that are chosen. */
export function answerRepairs(session: Session): void {
  const { connection, service } = session;
  connection.onCodeAction(
    session.answering('repairs', [], async (document, { range, context: { only, triggerKind } }, mayGoOn) => {
      const { uri } = document;
      const at = offsetRange(document, range);
      const isAsked = only !== undefined || triggerKind === CodeActionTriggerKind.Invoked;
      const patience = session.client.resolvesActions ? LISTING : MAKING;
      const end = performance.now() + patience;
      const actions: CodeAction[] = [];
      const list = async (kind: string, offers: readonly Offer[]) => {
        for (const offer of offers) actions.push(...(await actionsFor(session, document, kind, offer, end, mayGoOn)));
      };
      const listRepairs = async (where: Range) => {
        await list(CodeActionKind.QuickFix, await done(service.repairs(uri, where), patience, mayGoOn));
        actions.push(...acceptances(session, document, where));
      };
      if (wants(only, CodeActionKind.QuickFix)) {
        await listRepairs(at);
        const isBesideAll = actions.length === 0 && at.start === at.end;
        if (isBesideAll && triggerKind === CodeActionTriggerKind.Invoked)
          await listRepairs(lineAt(document, range.start));
      }
      if (isAsked && wants(only, QUESTION)) {
        const next = service.nextQuestion(uri);
        const title = `Insert the next question: ${next?.text}`;
        if (next) await list(QUESTION, [{ title, preferred: false, mends: [], edits: next.edits }]);
      }
      if (isAsked) {
        for (const { kind, title, edits } of service.actions(uri, at))
          if (wants(only, kindsOfActions[kind]))
            await list(kindsOfActions[kind], [{ title, preferred: false, mends: [], edits }]);
      }
      if (isAsked && wants(only, PART)) actions.push(...(await partActions(session, document, at.start, mayGoOn)));
      if (isAsked && wants(only, EXTRACT)) actions.push(...(await extractActions(session, document, at)));
      mayGoOn();
      if (only && wants(only, FIX_ALL)) await list(FIX_ALL, service.repairsOfAll(uri));
      return actions;
    }),
  );
  connection.onCodeActionResolve(
    guarded(
      (action: CodeAction, token: CancellationToken) => resolve(session, action, token),
      (error, action) => {
        session.faults.note('the making of a repair', error);
        return action;
      },
    ),
  );
}

/** The line of a position: what someone means who asks with the cursor beside all that is wrong in it. */
function lineAt(document: TextDocument, { line }: Position): Range {
  return offsetRange(document, { start: { line, character: 0 }, end: { line, character: Number.MAX_SAFE_INTEGER } });
}

/** Parts for the slot at an offset: a list to pick from for a client that has one, else the best as actions. */
async function partActions(
  session: Session,
  document: TextDocument,
  offset: number,
  mayGoOn: () => void,
): Promise<CodeAction[]> {
  const { client, service } = session;
  const slot = service.slotAt(document.uri, offset);
  if (!slot) return [];
  if (client.opensPages) {
    const title = `Choose from the catalogs: ${slot.title}...`;
    const command = { title, command: 'buildSheet.choosePart', arguments: [document.uri, slot.name] };
    return [{ title, kind: PART, command }];
  }
  const list = await done(service.pickParts(document.uri, slot.name), MAKING, mayGoOn);
  return (list?.picks ?? []).map(({ label, detail, edits }) => ({
    title: `Use ${label} (${detail})`,
    kind: PART,
    edit: workspaceEdit(document, edits, client),
  }));
}

/** An offer as an action: with its edits where they are known, or where the client cannot ask for them later. */
async function actionsFor(
  session: Session,
  document: TextDocument,
  kind: string,
  offer: Offer,
  end: number,
  mayGoOn: () => void,
): Promise<CodeAction[]> {
  const { client, service } = session;
  const action = actionOf(document, kind, offer, session.shown(document, offer.mends), client);
  if (action.data) return [action];
  const left = end - performance.now();
  const made = offer.choice && left > 0 ? await done(service.resolve(document.uri, offer.choice), left, mayGoOn) : [];
  const edits = offer.edits ?? made;
  return edits.length > 0 ? [{ ...action, edit: workspaceEdit(document, edits, client) }] : [];
}

/** An action with its edit, made and checked now that it is chosen. */
async function resolve(session: Session, action: CodeAction, token: CancellationToken): Promise<CodeAction> {
  const { documents, service } = session;
  if (!action.data) return action;
  const { uri, version, choice } = action.data as Chosen;
  const document = documents.get(uri);
  if (document?.version !== version) throw new ResponseError(LSPErrorCodes.ContentModified, 'the text has changed');
  const mayGoOn = session.goingOn(document, token);
  await session.supplied();
  mayGoOn();
  const edits = await done(service.resolve(uri, choice), MAKING, mayGoOn);
  if (edits.length > 0) return { ...action, edit: workspaceEdit(document, edits, session.client) };
  session.tell(MessageType.Warning, `"${action.title}" would not hold in this sheet, so nothing was changed.`);
  return action;
}

/** Whether actions of a kind are asked for. */
function wants(only: readonly string[] | undefined, kind: string): boolean {
  return !only || only.some((one) => kind === one || kind.startsWith(`${one}.`));
}

/** An action without its edit; for a client that asks for it later, with what it takes to make it. */
function actionOf(
  { uri, version }: TextDocument,
  kind: string,
  { title, preferred, edits, choice }: Offer,
  mends: Diagnostic[],
  { resolvesActions }: Client,
): CodeAction {
  const chosen: Chosen | undefined = !edits && choice && resolvesActions ? { uri, version, choice } : undefined;
  return {
    title,
    kind,
    ...(mends.length > 0 && { diagnostics: mends }),
    ...(preferred && { isPreferred: true }),
    ...(chosen && { data: chosen }),
  };
}

/** Edits of a document; for a client that checks versions, of this version only. */
export function workspaceEdit(
  document: TextDocument,
  edits: readonly TextEdit[],
  { takesVersionedEdits }: Client,
): WorkspaceEdit {
  const { uri, version } = document;
  const changes = edits.map(({ start, end, text }) => ({ range: lspRange(document, { start, end }), newText: text }));
  return takesVersionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: changes }] }
    : { changes: { [uri]: changes } };
}
