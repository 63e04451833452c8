import { type CodeAction, CodeActionKind, type Diagnostic, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type Checked, checkText } from '../rules/checked.ts';
import type { Finding } from '../rules/finding.ts';
import { repairAll, verifiedRepairs } from '../rules/repair.ts';
import { applyEdits } from '../sheet/edit.ts';
import type { Range } from '../sheet/entry.ts';
import type { Problem, TextEdit } from '../sheet/problem.ts';
import { findingDiagnostic, type PageOf, problemDiagnostic } from './diagnostics.ts';
import { lspRange, touches } from './document.ts';

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.buildSheet`;

type Context = { document: TextDocument; pageOf: PageOf };

/** Repairs for what stands in a stretch of text. */
export function quickFixes(context: Context, checked: Checked, range: Range): CodeAction[] {
  const { problems } = checked.sheet;
  const touched = checked.findings.filter((finding) => touches(finding.range, range));
  return [
    ...problems.filter((problem) => touches(problem.range, range)).flatMap((problem) => problemFixes(context, problem)),
    ...touched.flatMap((finding) => findingFixes(context, checked, finding)),
    ...kindFixes(context, checked, touched),
  ];
}

/** Fixes of a problem with the text, for sheets and house rules alike. */
export function problemFixes({ document, pageOf }: Context, problem: Problem): CodeAction[] {
  const diagnostic = problemDiagnostic(document, problem, pageOf);
  return problem.fixes.map(({ title, edits, preferred }) => quickFix(document, title, edits, [diagnostic], preferred));
}

function findingFixes({ document, pageOf }: Context, checked: Checked, finding: Finding): CodeAction[] {
  const diagnostic = findingDiagnostic(document, finding, pageOf);
  return verifiedRepairs(checked, finding).map(({ title, edits }, index) =>
    quickFix(document, title, edits, [diagnostic], index === 0),
  );
}

/** One action for all findings of a kind, where there are several in the sheet. */
function kindFixes({ document, pageOf }: Context, checked: Checked, touched: readonly Finding[]): CodeAction[] {
  return [...new Set(touched.map(({ found }) => found))].flatMap((rule) => {
    const same = checked.findings.filter(({ found }) => found === rule);
    if (same.length < 2) return [];
    const edits = difference(checked.sheet.text, repairAll(checked, rule).sheet.text);
    const diagnostics = same.map((finding) => findingDiagnostic(document, finding, pageOf));
    return edits.length ? [quickFix(document, `Fix all of \`${rule}\``, edits, diagnostics, false)] : [];
  });
}

/** Everything that can be mended without a choice, as one action. */
export function fixAll({ document }: Context, checked: Checked): CodeAction[] {
  const { sheet, house } = checked;
  const fixes = onlyFixes(sheet.problems);
  const readable = fixes.length ? checkText(applyEdits(sheet.text, fixes), house) : checked;
  const edits = difference(sheet.text, repairAll(readable).sheet.text);
  if (edits.length === 0) return [];
  return [{ title: 'Fix all that needs no choice', kind: FIX_ALL, edit: workspaceEdit(document, edits) }];
}

/** The edits of the problems that have one way to be mended. */
function onlyFixes(problems: readonly Problem[]): TextEdit[] {
  const only = problems.flatMap(({ fixes }) => (fixes.length === 1 && fixes[0]?.preferred ? fixes[0].edits : []));
  const sorted = only.toSorted((one, other) => one.start - other.start);
  return sorted.filter((edit, index) => edit.start >= (sorted[index - 1]?.end ?? 0));
}

function quickFix(
  document: TextDocument,
  title: string,
  edits: readonly TextEdit[],
  diagnostics: Diagnostic[],
  isPreferred: boolean,
): CodeAction {
  return { title, kind: CodeActionKind.QuickFix, diagnostics, isPreferred, edit: workspaceEdit(document, edits) };
}

function workspaceEdit(document: TextDocument, edits: readonly TextEdit[]): WorkspaceEdit {
  const changes = edits.map(({ start, end, text }) => ({ range: lspRange(document, { start, end }), newText: text }));
  return { documentChanges: [{ textDocument: { uri: document.uri, version: document.version }, edits: changes }] };
}

/** The one edit that turns a text into another, without the beginning and end they share. */
function difference(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  if (isHighSurrogate(before, start - 1)) start--;
  let tail = 0;
  while (tail < shorter - start && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  if (isHighSurrogate(before, before.length - tail - 1)) tail--;
  return [{ start, end: before.length - tail, text: after.slice(start, after.length - tail) }];
}

function isHighSurrogate(text: string, index: number): boolean {
  const code = text.charCodeAt(index);
  return code >= 0xd800 && code <= 0xdbff;
}
