import type { FigureNode } from '../analysis/node.ts';
import type { Change } from '../sheet/edit.ts';
import type { Range } from '../sheet/entry.ts';
import type { FieldPath, Path } from '../sheet/path.ts';
import { isPoint } from '../sheet/points.ts';
import { entryOf, nearestEntry, type Sheet } from '../sheet/read.ts';
import { catalogPlace, takenAt } from '../sheet/with-parts.ts';
import type { RuleId, Severity } from './rule.ts';

/** A repair with the places in the sheet it changes. */
export type PlannedRepair = {
  title: string;
  changes: readonly Change[];
  safe: boolean;
  shows?: FigureNode;
  /** The stage whose figure is shown. */
  stage: number;
};

/** Something a rule finds in a sheet. */
export type Finding = {
  rule: RuleId;
  /** The rule that found it, where the plan told it instead. */
  found: RuleId;
  severity: Severity;
  message: string;
  path: Path;
  related: readonly { path: Path; message: string }[];
  repairs: readonly PlannedRepair[];
  /** The stages it holds in, by number. */
  stages: readonly number[];
  /** By how much it misses its limit in the worst of them, in a measure of its rule. */
  excess?: number;
};

/** A finding at its place in the text. */
export type PlacedFinding = Omit<Finding, 'related'> & {
  range: Range;
  related: readonly { path: Path; range: Range; message: string; uri?: string }[];
};

/** A finding the sheet silences, and why. */
export type Accepted = { finding: Finding; reason: string; silencer: number };

/** A rule that could not be judged in some stages: the fields it lacked, or what makes it impossible. */
export type OpenCheck = {
  rule: RuleId;
  title: string;
  severity: Severity;
  stages: readonly number[];
  lacks: readonly FieldPath[];
  /** The fields that each of those stages lacks. */
  lacksByStage: readonly (readonly FieldPath[])[];
  impossible: readonly string[];
};

/** Whether a check only waits for points of careful installation, which are counted apart from what decides parts. */
export function isOfPoints({ lacks }: Pick<OpenCheck, 'lacks'>): boolean {
  return lacks.length > 0 && lacks.every(isPoint);
}

type Text = Pick<Sheet, 'root' | 'text' | 'parts'>;

/** A finding with the stretches of text it is about; where a catalog says what it is about, also there. */
export function placed(sheet: Text, finding: Finding): PlacedFinding {
  const related = finding.related.map(({ path, message }) => ({ path, message, range: markOf(sheet, path) }));
  const inCatalog = catalogPlace(sheet, finding.path);
  const { path } = finding;
  return {
    ...finding,
    range: markOf(sheet, path),
    related: inCatalog ? [{ path, ...inCatalog, message: 'The catalog says so here.' }, ...related] : related,
  };
}

/**
 * Where to mark a path: its value, or its key where the value is long or nothing is there; what a catalog says at the id of
 * the part.
 */
export function markOf(sheet: Text, path: Path): Range {
  const found = takenAt(sheet, path);
  const named = found && entryOf(sheet, found.taken.place);
  if (named?.kind === 'scalar') return firstLine(sheet.text, named.value);
  const entry = nearestEntry(sheet, path);
  const isItself = entry.path.length === path.length;
  if (isItself && entry.kind === 'scalar') return firstLine(sheet.text, entry.value);
  if (entry.key) return entry.key;
  const first = entry.children[0];
  if (first?.key) return first.key;
  return firstLine(sheet.text, entry.value);
}

function firstLine(text: string, { start, end }: Range): Range {
  const line = text.slice(start, end).search(/\r?\n/);
  return { start, end: line < 0 ? end : start + line };
}
