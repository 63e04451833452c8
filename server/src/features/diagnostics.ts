import type { Checked } from '../checking/checked.ts';
import type { PlacedFinding } from '../checking/finding.ts';
import type { Severity } from '../checking/rule.ts';
import type { Problem } from '../sheet/problem.ts';
import { echo } from '../text/echo.ts';
import { marked, type Place, type Range } from '../text/place.ts';

/** What is wrong at one place of a text. */
export type Diagnosis = {
  code: string;
  /** The rule that found it, where the plan told it instead. */
  found: string;
  severity: Severity;
  message: string;
  /** On one line, and never empty but in an empty text. */
  range: Range;
  related: readonly { place: Place; message: string }[];
};

/** Most diagnoses of one text, so that a very long one does not stall the editor. */
const MOST_DIAGNOSES = 500;

const LONGEST_MESSAGE = 1000;

const order: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** Everything found in a sheet, once where an alias repeats it; where that is too much, the most severe. */
export function sheetDiagnoses(uri: string, { sheet, findings }: Checked): Diagnosis[] {
  const problems = problemDiagnoses(uri, sheet.text, sheet.problems);
  const room = Math.max(0, MOST_DIAGNOSES - problems.length);
  const different = onceEach(findings.map((finding) => findingDiagnosis(uri, sheet.text, finding)));
  if (different.length <= room) return [...problems, ...different];
  const worstFirst = different.toSorted((one, other) => order.indexOf(one.severity) - order.indexOf(other.severity));
  return [...problems, ...worstFirst.slice(0, room)];
}

/** Of those that say the same of the same place, as an alias makes them, one. */
export function onceEach<One extends Diagnosis>(diagnoses: readonly One[]): One[] {
  return [...new Map(diagnoses.map((diagnosis) => [placeAndMessage(diagnosis), diagnosis])).values()];
}

function placeAndMessage({ code, range, message }: Diagnosis): string {
  return `${code} ${range.start} ${range.end} ${message}`;
}

/** What is wrong with the text itself, in sheets and house rules alike. */
export function problemDiagnoses(uri: string, text: string, problems: readonly Problem[]): Diagnosis[] {
  return problems.slice(0, MOST_DIAGNOSES).map((problem) => problemDiagnosis(uri, text, problem));
}

/** A problem of the text. */
export function problemDiagnosis(uri: string, text: string, problem: Problem): Diagnosis {
  const { code, severity, message, range, related = [] } = problem;
  return {
    code,
    found: code,
    severity: severity ?? 'error',
    message: echo(message, LONGEST_MESSAGE),
    range: marked(text, range),
    related: related.map((other) => ({
      place: other.uri ? { uri: other.uri, range: other.range } : { uri, range: marked(text, other.range) },
      message: other.message,
    })),
  };
}

/** A file that cannot be read, and why. */
export function unreadDiagnosis(reason: string): Diagnosis {
  const message = `This file was not checked: ${reason}`;
  const code = 'sheet/unreadable';
  return { code, found: code, severity: 'error', message, range: { start: 0, end: 0 }, related: [] };
}

/** A finding with the other places it involves. */
export function findingDiagnosis(uri: string, text: string, finding: PlacedFinding): Diagnosis {
  const { rule, found, severity, message, range, related } = finding;
  return {
    code: rule,
    found,
    severity: severity ?? 'error',
    message: echo(message, LONGEST_MESSAGE),
    range: marked(text, range),
    related: related.map((other) => ({
      place: other.uri ? { uri: other.uri, range: other.range } : { uri, range: marked(text, other.range) },
      message: echo(other.message, LONGEST_MESSAGE),
    })),
  };
}
