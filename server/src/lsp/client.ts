import { type InitializeParams, MarkupKind } from 'vscode-languageserver';

/** What a client has told it can do; what it does not tell it cannot. */
export type Client = ReturnType<typeof clientOf>;

/** What only a client of ours tells: that it shows pages, asks for reasons, gives files; and settings of one that is not asked for them. */
type Options = { opensPages?: unknown; asksReasons?: unknown; givesFiles?: unknown; settings?: unknown };

export function clientOf({ capabilities: { textDocument, workspace }, initializationOptions }: InitializeParams) {
  const { codeAction, publishDiagnostics, completion, documentSymbol, foldingRange, rename } = textDocument ?? {};
  const options = (initializationOptions ?? {}) as Options;
  const resolved = codeAction?.resolveSupport?.properties ?? [];
  return {
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    takesVersions: publishDiagnostics?.versionSupport === true,
    takesRelated: publishDiagnostics?.relatedInformation === true,
    takesPages: publishDiagnostics?.codeDescriptionSupport === true,
    watches: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    changesFolders: workspace?.workspaceFolders === true,
    takesActions: codeAction?.codeActionLiteralSupport !== undefined,
    resolvesActions: codeAction?.dataSupport === true && resolved.includes('edit'),
    takesVersionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    createsFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.resourceOperations?.includes('create') === true,
    takesDefinitionLinks: textDocument?.definition?.linkSupport === true,
    takesImplementationLinks: textDocument?.implementation?.linkSupport === true,
    preparesRename: rename?.prepareSupport === true,
    takesSnippets: completion?.completionItem?.snippetSupport === true,
    opensPages: options.opensPages === true,
    asksReasons: options.asksReasons === true,
    givesFiles: options.givesFiles === true,
    settings: options.settings,
    configures: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    hoverIn: kindIn(textDocument?.hover?.contentFormat),
    documentationIn: kindIn(completion?.completionItem?.documentationFormat),
    takesTrees: documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    mostFolds: foldingRange?.rangeLimit ?? Number.POSITIVE_INFINITY,
  };
}

/** Markdown only for those who say they show it. */
function kindIn(formats: readonly MarkupKind[] = []): MarkupKind {
  return formats.includes(MarkupKind.Markdown) ? MarkupKind.Markdown : MarkupKind.PlainText;
}
