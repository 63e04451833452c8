import {
  type Location,
  LSPErrorCodes,
  ResponseError,
  type TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { idRefusal, type PartId } from '../features/part-ids.ts';
import { sameFile } from '../workspace/address.ts';
import { kindOf, MOST_SHEET_BYTES } from '../workspace/kind.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';

/** A text in which an id stands. */
type Named = { document: TextDocument; version: number | null; ids: readonly PartId[] };

/** Where the catalogs give an id. */
export function partLocations(session: Session, uri: string, id: string): Location[] {
  const { service } = session;
  return service.partPlaces(uri, id).flatMap((place) => {
    const text = service.workspace.textAt(place.uri);
    return text === undefined
      ? []
      : [{ uri: place.uri, range: lspRange(TextDocument.create(place.uri, '', 0, text), place.range) }];
  });
}

/** Every place of an id in all sheets and catalogs, open or in the folders. */
export async function partReferences(
  session: Session,
  { id, list }: PartId,
  includeGiven: boolean,
  mayGoOn: () => void,
): Promise<Location[]> {
  const { named } = await everywhere(session, id, list, mayGoOn);
  return named.flatMap(({ document, ids }) =>
    ids
      .filter(({ isGiven }) => includeGiven || !isGiven)
      .map(({ range }) => ({ uri: document.uri, range: lspRange(document, range) })),
  );
}

/** The edits that give a part or kit another id, everywhere. @throws ResponseError where that would not hold */
export async function partRenaming(
  session: Session,
  uri: string,
  { id, list }: PartId,
  name: string,
  mayGoOn: () => void,
): Promise<WorkspaceEdit> {
  const refusal = idRefusal(name, session.service.partNames(uri));
  if (refusal) throw new ResponseError(LSPErrorCodes.RequestFailed, refusal);
  const { named, unread } = await everywhere(session, id, list, mayGoOn);
  if (unread.length > 0) {
    const files = unread.map((file) => decodeURIComponent(file.split('/').at(-1) ?? file)).join(', ');
    const told = `Nothing was changed: it cannot be known whether "${id}" stands in ${files}, which cannot be read whole.`;
    throw new ResponseError(LSPErrorCodes.RequestFailed, told);
  }
  const edits = named.map(({ document, version, ids }) => ({
    uri: document.uri,
    version,
    edits: ids.map(({ range }): TextEdit => ({ range: lspRange(document, range), newText: name })),
  }));
  if (!session.client.takesVersionedEdits)
    return { changes: Object.fromEntries(edits.map((one) => [one.uri, one.edits])) };
  return {
    documentChanges: edits.map(
      (one): TextDocumentEdit => ({ textDocument: { uri: one.uri, version: one.version }, edits: one.edits }),
    ),
  };
}

/** The texts in which an id stands, and those that cannot be read to their end. */
async function everywhere(
  session: Session,
  id: string,
  list: PartId['list'],
  mayGoOn: () => void,
): Promise<{ named: Named[]; unread: string[] }> {
  const { documents, host, service } = session;
  const { uris } = await host.find(service.workspace.roots);
  const open = service.workspace.all().map(({ uri }) => uri);
  const known = new Set(open.map(sameFile));
  const named: Named[] = [];
  const unread: string[] = [];
  const look = (document: TextDocument, version: number | null) => {
    const text = document.getText();
    if (!text.includes(id)) return;
    const ids = service.partIds(document.uri, text);
    const own = ids?.filter((one) => one.id === id && one.list === list) ?? [];
    if (!ids) unread.push(document.uri);
    else if (own.length > 0) named.push({ document, version, ids: own });
  };
  for (const uri of open) {
    const document = documents.get(uri);
    if (document) look(document, document.version);
  }
  for (const uri of uris.filter((one) => !known.has(sameFile(one)) && kindOf(one, '') !== 'house')) {
    mayGoOn();
    const file = await host.readOnce(uri, MOST_SHEET_BYTES);
    if (file.kind === 'text') look(TextDocument.create(uri, '', 0, file.text), null);
    else if (file.kind === 'refused') unread.push(uri);
  }
  mayGoOn();
  return { named, unread };
}
