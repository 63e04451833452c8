import {
  DocumentHighlightKind,
  type Location,
  type LocationLink,
  LSPErrorCodes,
  ResponseError,
  type SelectionRange,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Targets } from '../features/moving.ts';
import type { Range } from '../text/place.ts';
import { workspaceEdit } from './code-actions.ts';
import { partLocations, partReferences, partRenaming } from './part-names.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';
import { answerWorkspaceSymbols } from './workspace-symbols.ts';

const needsHouse = { needsHouse: false };

/** Moves about in a text: to where a thing is said, changed and used, and to larger stretches; changes names. */
export function answerMoving(session: Session): void {
  const { connection, service } = session;
  connection.onDefinition(
    session.answering(
      'the definition',
      null,
      async (document, { position }) => {
        const part = service.partId(document.uri, document.offsetAt(position));
        if (part) {
          await session.supplied();
          return partLocations(session, document.uri, part.id);
        }
        const targets = service.definitions(document.uri, document.offsetAt(position));
        return links(document, targets, session.client.takesDefinitionLinks);
      },
      needsHouse,
    ),
  );
  connection.onImplementation(
    session.answering(
      'the later changes',
      null,
      (document, { position }) => {
        const targets = service.laterChanges(document.uri, document.offsetAt(position));
        return links(document, targets, session.client.takesImplementationLinks);
      },
      needsHouse,
    ),
  );
  connection.onReferences(
    session.answering(
      'the uses',
      [],
      async (document, { position, context: { includeDeclaration } }, mayGoOn) => {
        const offset = document.offsetAt(position);
        const part = service.partId(document.uri, offset);
        if (part) return partReferences(session, part, includeDeclaration, mayGoOn);
        return service
          .uses(document.uri, offset)
          .filter(({ isGiven }) => includeDeclaration || !isGiven)
          .map(({ range }) => ({ uri: document.uri, range: lspRange(document, range) }));
      },
      needsHouse,
    ),
  );
  connection.onDocumentHighlight(
    session.answering(
      'the uses in sight',
      [],
      (document, { position }) =>
        service.uses(document.uri, document.offsetAt(position)).map(({ range, isGiven }) => ({
          range: lspRange(document, range),
          kind: isGiven ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
        })),
      needsHouse,
    ),
  );
  connection.onSelectionRanges(
    session.answering(
      'larger selections',
      [],
      (document, { positions }) =>
        positions.map((position) =>
          selectionOf(document, service.selections(document.uri, document.offsetAt(position))),
        ),
      needsHouse,
    ),
  );
  answerNaming(session);
  answerWorkspaceSymbols(session);
}

function answerNaming(session: Session): void {
  const { connection, service } = session;
  connection.onPrepareRename(
    session.answering(
      'the name',
      null,
      (document, { position }) => {
        const part = service.partId(document.uri, document.offsetAt(position));
        if (part) return { range: lspRange(document, part.range), placeholder: part.id };
        const found = service.renameable(document.uri, document.offsetAt(position));
        return found ? { range: lspRange(document, found.range), placeholder: found.name } : null;
      },
      needsHouse,
    ),
  );
  connection.onRenameRequest(
    session.answering(
      'the change of a name',
      null,
      async (document, { position, newName }, mayGoOn) => {
        const part = service.partId(document.uri, document.offsetAt(position));
        if (part) {
          await session.supplied();
          return partRenaming(session, document.uri, part, newName, mayGoOn);
        }
        const renaming = service.rename(document.uri, document.offsetAt(position), newName);
        if ('refusal' in renaming) throw new ResponseError(LSPErrorCodes.RequestFailed, renaming.refusal);
        return workspaceEdit(document, renaming.edits, session.client);
      },
      needsHouse,
    ),
  );
  connection.languages.onLinkedEditingRange(
    session.answering(
      'linked names',
      null,
      (document, { position }) => {
        const linked = service.linked(document.uri, document.offsetAt(position));
        if (!linked) return null;
        return { ranges: linked.ranges.map((range) => lspRange(document, range)), wordPattern: linked.pattern };
      },
      needsHouse,
    ),
  );
}

/** Places to go to, with what they are gone to from for a client that shows it. */
function links(document: TextDocument, found: Targets | undefined, takesLinks: boolean): Location[] | LocationLink[] {
  const { from, targets } = found ?? { targets: [] };
  if (!takesLinks) return targets.map(({ range }) => ({ uri: document.uri, range: lspRange(document, range) }));
  return targets.map(({ range, whole }) => ({
    ...(from && { originSelectionRange: lspRange(document, from) }),
    targetUri: document.uri,
    targetRange: lspRange(document, whole),
    targetSelectionRange: lspRange(document, range),
  }));
}

/** Stretches of text, each with the next larger one as its parent. */
function selectionOf(document: TextDocument, ranges: readonly Range[]): SelectionRange {
  const whole = { start: 0, end: document.getText().length };
  const [largest = whole, ...smaller] = ranges.toReversed();
  return smaller.reduce<SelectionRange>((parent, range) => ({ range: lspRange(document, range), parent }), {
    range: lspRange(document, largest),
  });
}
