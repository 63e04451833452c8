import {
  type CancellationToken,
  DocumentDiagnosticReportKind,
  LSPErrorCodes,
  MessageType,
  ResponseError,
  type WorkspaceDiagnosticReport,
  type WorkspaceFullDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { sameFile } from '../workspace/address.ts';
import { guarded } from './guard.ts';
import { Progress } from './progress.ts';
import type { Session } from './session.ts';
import { resultIdOf } from './whole-folder.ts';

/** How long reports are gathered before they are sent, in ms. */
const GATHERING = 100;

const NOTHING = resultIdOf([]);

/** What a client knows: by file, the name of the result it got last and the address it knows it by. */
type Told = Map<string, { uri: string; resultId: string }>;

type Report = WorkspaceFullDocumentDiagnosticReport;

/** Answers those who ask for everything in the folders; an answer that would hold no news waits for some. */
export function answerFolder(session: Session): void {
  let wasAnswered = false;
  session.connection.languages.diagnostics.onWorkspace(
    guarded(
      async ({ previousResultIds }, token, _, partial): Promise<WorkspaceDiagnosticReport> => {
        const told: Told = new Map(
          previousResultIds.map(({ uri, value }) => [sameFile(uri), { uri, resultId: value }]),
        );
        const cancelled = cancellationOf(token);
        for (;;) {
          const all: Report[] = [];
          await worked(session, cancelled, () => {
            const items = newsOf(session, told);
            if (items.length > 0) partial?.report({ items });
            all.push(...items);
          });
          if (all.length > 0 || !wasAnswered) {
            wasAnswered = true;
            return { items: partial ? [] : all };
          }
          await Promise.race([session.folder.change(), cancelled]);
        }
      },
      (error) => {
        session.faults.note('the check of the folder', error);
        return { items: [] };
      },
    ),
  );
}

/** Publishes what is found in files that are not open, for a client that does not ask. */
export async function publishFolder(session: Session): Promise<void> {
  const { folder } = session;
  const told: Told = new Map();
  const never = new Promise<never>(() => {});
  for (;;) {
    await worked(session, never, () => {
      for (const { uri, version, items } of newsOf(session, told, NOTHING)) {
        if (version === null) session.publish(uri, items);
        else told.delete(sameFile(uri));
      }
    });
    await folder.change();
  }
}

/**
 * Works until all is known; `gather` is called now and then, and at the end. Rejects as soon as the work is `cancelled` by
 * who asked for it; who sees it going on can stop it until something changes.
 */
export async function worked(
  session: Session,
  cancelled: Promise<never>,
  gather: () => void = () => {},
): Promise<void> {
  const { folder, connection } = session;
  const waiter = {};
  const progress = new Progress(connection, 'Build Sheet: checking the folder', () => {
    folder.leave(waiter);
    const { left } = folder.counts;
    const message = `Build Sheet: ${left} files are not checked. The check goes on when something in the folder changes.`;
    session.tell(MessageType.Info, message);
  });
  let isDone = false;
  const work = folder.work(waiter).finally(() => {
    isDone = true;
  });
  try {
    while (!isDone) {
      await Promise.race([work, cancelled, new Promise((go) => setTimeout(go, GATHERING))]);
      gather();
      await progress.update(folder.counts);
    }
  } finally {
    folder.leave(waiter);
    await progress.end();
  }
}

/** What a client does not know yet, which it knows from here on; of a file it knows nothing of, not what is `usual`. */
function newsOf({ folder }: Session, told: Told, usual?: string): Report[] {
  const kind = DocumentDiagnosticReportKind.Full;
  const news: Report[] = [];
  for (const [file, { uri, version, items, resultId }] of folder.reports) {
    if ((told.get(file)?.resultId ?? usual) !== resultId) news.push({ kind, uri, version, items, resultId });
    told.set(file, { uri, resultId });
  }
  if (!folder.isListed) return news;
  for (const [file, { uri, resultId }] of told) {
    if (folder.has(file)) continue;
    if (resultId !== NOTHING) news.push({ kind, uri, version: null, items: [], resultId: NOTHING });
    told.delete(file);
  }
  return news;
}

/** Rejects once nobody waits any more. */
export function cancellationOf(token: CancellationToken): Promise<never> {
  const cancelled = new Promise<never>((_, reject) => {
    const refuse = () => reject(new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled'));
    if (token.isCancellationRequested) refuse();
    else token.onCancellationRequested(refuse);
  });
  cancelled.catch(() => {});
  return cancelled;
}
