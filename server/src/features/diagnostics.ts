import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Finding } from '../rules/finding.ts';
import type { Severity } from '../rules/rule.ts';
import type { Problem } from '../sheet/problem.ts';
import { lspRange } from './document.ts';

/** Address of the page that explains a code. */
export type PageOf = (code: string) => string | undefined;

export const SOURCE = 'build-sheet';

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** What is wrong with the text, as the editor shows it. */
export function problemDiagnostic(document: TextDocument, problem: Problem, pageOf: PageOf): Diagnostic {
  return {
    range: lspRange(document, problem.range),
    severity: DiagnosticSeverity.Error,
    source: SOURCE,
    message: problem.message,
    ...codeOf(problem.code, pageOf),
  };
}

/** A finding, as the editor shows it. */
export function findingDiagnostic(document: TextDocument, finding: Finding, pageOf: PageOf): Diagnostic {
  return {
    range: lspRange(document, finding.range),
    severity: severities[finding.severity],
    source: SOURCE,
    message: finding.message,
    ...codeOf(finding.rule, pageOf),
    relatedInformation: finding.related.map(({ range, message }) => ({
      location: { uri: document.uri, range: lspRange(document, range) },
      message,
    })),
    data: { found: finding.found },
  };
}

function codeOf(code: string, pageOf: PageOf): Pick<Diagnostic, 'code' | 'codeDescription'> {
  const href = pageOf(code);
  return { code, ...(href && { codeDescription: { href } }) };
}
