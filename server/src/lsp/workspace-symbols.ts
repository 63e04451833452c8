import { SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import { matches, type NamedThing } from '../features/workspace-symbols.ts';
import { cancellationOf, worked } from './folder-diagnostics.ts';
import { guarded } from './guard.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';
import type { NamedPlace } from './whole-folder.ts';

const kinds: Record<NamedThing['kind'], SymbolKind> = {
  sheet: SymbolKind.File,
  stage: SymbolKind.Event,
  part: SymbolKind.Object,
  anchor: SymbolKind.Constant,
};

/** Most symbols of one answer. */
const MOST = 500;

/** Finds sheets by their titles, and what is named in them, in all texts that are open or in the folders. */
export function answerWorkspaceSymbols(session: Session): void {
  session.connection.onWorkspaceSymbol(
    guarded(
      async ({ query }, token): Promise<WorkspaceSymbol[]> => {
        await worked(session, cancellationOf(token));
        const all = [...openNames(session), ...session.folder.named];
        return all
          .flatMap(({ uri, named }) => named.map((one) => symbolOf(uri, one)))
          .filter(({ name, containerName }) => matches(`${containerName ?? ''} ${name}`, query))
          .slice(0, MOST);
      },
      (error) => {
        session.faults.note('the names in the folder', error);
        return [];
      },
    ),
  );
}

function openNames({ service, documents }: Session): { uri: string; named: NamedPlace[] }[] {
  return service.workspace.all().flatMap(({ uri }) => {
    const document = documents.get(uri);
    if (!document) return [];
    return [{ uri, named: service.named(uri).map((one) => ({ ...one, range: lspRange(document, one.range) })) }];
  });
}

function symbolOf(uri: string, { name, kind, range, container }: NamedPlace): WorkspaceSymbol {
  return { name, kind: kinds[kind], location: { uri, range }, ...(container && { containerName: container }) };
}
