import type { Severity } from '../checking/rule.ts';
import type { Position } from '../text/lines.ts';

/** A stretch of one line of a text, ready to be shown: no longer than a screen, and the columns that are meant. */
export type Excerpt = { line: string; from: number; to: number };

/** One thing told of a file, with all that any format shows of it. */
export type ToldAt = {
  rule: string;
  /** The rule that found it, where the plan told it instead. */
  found: string;
  severity: Severity;
  message: string;
  field: string;
  stages: readonly string[];
  identity: string;
  identities: readonly string[];
  start: Position;
  end: Position;
  excerpt: Excerpt;
  related: readonly { path: string; start: Position; message: string }[];
  repairs: readonly string[];
  accepted?: string;
};

/** A file with all that is told of it. */
export type CheckedFile = {
  /** As it is shown: from the working folder, with slashes. */
  path: string;
  told: readonly ToldAt[];
  /** How many checks could not be made for want of a field, and how many for want of a point of installation. */
  open: number;
  points: number;
};

/** What could not be done, and of which file, if it is of one. */
export type Complaint = { path?: string; message: string };

/** A check of some files. */
export type CheckResult = {
  files: readonly CheckedFile[];
  /** What keeps the check from being whole. */
  complaints: readonly Complaint[];
  /** Faults of our own. */
  faults: readonly Complaint[];
};

export const severities: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** What is told of a file and not accepted by it. */
export function findingsOf({ told }: CheckedFile): ToldAt[] {
  return told.filter(({ accepted }) => accepted === undefined);
}

/** How many findings there are of each severity. */
export function countsOf({ files }: CheckResult): Record<Severity, number> {
  const counts = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const file of files) for (const { severity } of findingsOf(file)) counts[severity]++;
  return counts;
}

/** What a finding is known by within its file, and the same again with a number where there are several. */
export function fingerprintsOf(told: readonly ToldAt[]): string[] {
  const seen = new Map<string, number>();
  return told.map(({ identity }) => {
    const count = (seen.get(identity) ?? 0) + 1;
    seen.set(identity, count);
    return count === 1 ? identity : `${identity} #${count}`;
  });
}
