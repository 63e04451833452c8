import {
  type CodeAction,
  CodeActionKind,
  CreateFile,
  type TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FileChange } from '../features/new-catalog.ts';
import type { Range } from '../text/place.ts';
import { MOST_CATALOG_BYTES } from '../workspace/catalogs.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';

export const EXTRACT = `${CodeActionKind.RefactorExtract}.buildSheet`;

/** The section of a stretch as a part of a catalog; of a new one only for a client that begins files by itself. */
export async function extractActions(session: Session, document: TextDocument, range: Range): Promise<CodeAction[]> {
  const { service } = session;
  const { uri } = document;
  const extractions = service.extractions(uri, range, await freeCatalog(session, uri));
  return extractions.map(({ title, files }) => ({ title, kind: EXTRACT, edit: editOf(session, files) }));
}

/** Where a catalog may be begun and no file stands. */
async function freeCatalog({ client, host, service }: Session, uri: string): Promise<string | undefined> {
  const wished = client.createsFiles ? service.newCatalog(uri) : undefined;
  const found = wished && (await host.readOnce(wished, MOST_CATALOG_BYTES));
  return found && found.kind === 'absent' ? wished : undefined;
}

/** Files are begun before anything is written, so that an editor takes all of it back at once. */
function editOf(session: Session, files: readonly FileChange[]): WorkspaceEdit {
  const edits = files.map((file) => ({ ...file, ...textEditsOf(session, file) }));
  if (!session.client.takesVersionedEdits)
    return { changes: Object.fromEntries(edits.map(({ uri, textEdits }) => [uri, textEdits])) };
  const begun = files.filter(({ begins }) => begins);
  return {
    documentChanges: [
      ...begun.map(({ uri }) => CreateFile.create(uri, { overwrite: false, ignoreIfExists: false })),
      ...edits.map(
        ({ uri, version, textEdits }): TextDocumentEdit => ({ textDocument: { uri, version }, edits: textEdits }),
      ),
    ],
  };
}

function textEditsOf({ documents, service }: Session, { uri, edits }: FileChange) {
  const open = documents.get(uri);
  const document = open ?? TextDocument.create(uri, '', 0, service.workspace.textAt(uri) ?? '');
  const textEdits = edits.map(
    ({ start, end, text }): TextEdit => ({ range: lspRange(document, { start, end }), newText: text }),
  );
  return { version: open?.version ?? null, textEdits };
}
