import type { FigureId } from '../analysis/figure.ts';
import type { Change } from '../sheet/edit.ts';
import type { Entry, Range } from '../sheet/entry.ts';
import { nearestEntry } from '../sheet/read.ts';
import type { Path } from '../sheet/schema.ts';
import type { RuleId, Severity } from './rule.ts';

/** A repair with the places in the text it changes. */
export type PlannedRepair = {
  title: string;
  changes: Change[];
  safe: boolean;
  shows?: FigureId;
  /** The stage whose figure is shown. */
  stage: number;
};

/** A finding at its place in the text. */
export type Finding = {
  rule: RuleId;
  /** The rule that found it, where the plan told it instead. */
  found: RuleId;
  severity: Severity;
  message: string;
  path: Path;
  range: Range;
  related: { range: Range; message: string }[];
  repairs: PlannedRepair[];
  /** The stages it holds in, by number. */
  stages: number[];
};

/** A finding the sheet silences, and why. */
export type Accepted = { finding: Finding; reason: string; silencer: number };

/** Where to mark a path: its value, or its key where the value is long or nothing is there. */
export function markOf(sheet: { root: Entry; text: string }, path: Path): Range {
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
