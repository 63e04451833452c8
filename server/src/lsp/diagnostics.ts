import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Diagnosis } from '../features/diagnostics.ts';
import type { Place } from '../text/place.ts';
import type { Client } from './client.ts';
import { lspRange } from './positions.ts';

/** Address of the page that explains a code. */
export type PageOf = (code: string) => string | undefined;

/** Any text by its address, open or on disk. */
export type TextAt = (uri: string) => string | undefined;

const SOURCE = 'build-sheet';

const severities: Record<Diagnosis['severity'], DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Diagnoses of a document as its client shows them. */
export function diagnosticsOf(
  document: TextDocument,
  diagnoses: readonly Diagnosis[],
  { client, pageOf, textAt }: { client: Client; pageOf: PageOf; textAt: TextAt },
): Diagnostic[] {
  function location({ uri, range }: Place) {
    const text = uri === document.uri ? document : TextDocument.create(uri, '', 0, textAt(uri) ?? '');
    return { uri, range: lspRange(text, range) };
  }

  return diagnoses.map(({ code, found, severity, message, range, related }) => {
    const href = client.takesPages ? pageOf(code) : undefined;
    return {
      range: lspRange(document, range),
      severity: severities[severity],
      source: SOURCE,
      message,
      code,
      ...(href && { codeDescription: { href } }),
      ...(client.takesRelated && {
        relatedInformation: related.map((other) => ({ location: location(other.place), message: other.message })),
      }),
      data: { found },
    };
  });
}

/** The diagnostic of a fault of our own, on the first line. */
export function faultDiagnostic(message: string): Diagnostic {
  const range = { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } };
  return { range, severity: DiagnosticSeverity.Error, source: SOURCE, code: 'internal-fault', message };
}
