import { isFields } from '../sheet/path.ts';
import type { StageSheet } from '../sheet/stages.ts';

/** In what a stage differs from another: fields by their path, with the sections around them. */
export type Differences = {
  readonly fields: ReadonlySet<string>;
  /** Whether nothing of either text is unread, so that a field that is missing is missing. */
  readonly isWhole: boolean;
};

/** Compares the values of a stage with those of another or of an earlier version; what is the same object is the same. */
export function differencesOf(one: StageSheet, other: StageSheet): Differences {
  const fields = new Set<string>();
  compare(one.values, other.values, '', fields);
  compare(one.stage, other.stage, 'stages', fields);
  return { fields, isWhole: one.isWhole && other.isWhole };
}

function compare(one: unknown, other: unknown, path: string, found: Set<string>): void {
  if (one === other) return;
  found.add(path);
  if (!isFields(one) || !isFields(other)) return;
  const below = path ? `${path}.` : '';
  for (const name of Object.keys(one)) compare(one[name], other[name], below + name, found);
  for (const name of Object.keys(other)) if (!(name in one)) found.add(below + name);
}
