import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Checked } from '../rules/checked.ts';
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

/** Most diagnostics of one sheet, so that a very long one does not stall the editor. */
const MOST_DIAGNOSTICS = 500;

/** Everything found in a sheet, once where an alias repeats it; where that is too much, the most severe. */
export function sheetDiagnostics(document: TextDocument, { sheet, findings }: Checked, pageOf: PageOf): Diagnostic[] {
  const room = MOST_DIAGNOSTICS - sheet.problems.length;
  const different = [...new Map(findings.map((finding) => [placeAndMessage(finding), finding])).values()];
  const shown =
    different.length <= room
      ? different
      : different.toSorted((one, other) => severities[one.severity] - severities[other.severity]).slice(0, room);
  return [
    ...sheet.problems.map((problem) => problemDiagnostic(document, problem, pageOf)),
    ...shown.map((finding) => findingDiagnostic(document, finding, pageOf)),
  ];
}

function placeAndMessage({ rule, range, message }: Finding): string {
  return `${rule} ${range.start} ${range.end} ${message}`;
}

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
