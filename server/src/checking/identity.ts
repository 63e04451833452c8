import { nameOf } from '../sheet/differing.ts';
import { entryAt } from '../sheet/entry.ts';
import { fieldAt, type Path, valueAt } from '../sheet/path.ts';
import type { Problem } from '../sheet/problem.ts';
import type { Sheet } from '../sheet/read.ts';
import type { Finding } from './finding.ts';

type Identified = Pick<Finding, 'found' | 'path' | 'stages'>;

/** What makes a finding the same in another version of a sheet: its rule, its field and the stages it holds in. */
export function identity(finding: Identified): string {
  return `${finding.found} ${fieldOf(finding)} ${finding.stages.join(',')}`;
}

/** The identity in every single stage, so that a finding that spreads to another stage is new there. */
export function identities({ stages, ...finding }: Identified): string[] {
  if (stages.length === 0) return [identity({ ...finding, stages })];
  return stages.map((stage) => identity({ ...finding, stages: [stage] }));
}

/**
 * The field a finding of a stage is about, wherever the sheet says it; a finding of the whole plan is about its place.
 * Items of lists are told apart by their number.
 */
export function fieldOf({ path, stages }: Pick<Finding, 'path' | 'stages'>): string {
  return path[0] === 'stages' && stages.length > 0 ? fieldAt(path) : path.join('.');
}

/**
 * The identities of a finding as they last from one state of a sheet to another, whoever adds a stage or an item above:
 * stages by their name, items of lists by what names them.
 */
export function lastingIdentities(finding: Identified, values: unknown, stageNames: readonly string[]): string[] {
  const { found, stages } = finding;
  const field = lastingFieldOf(finding, values);
  if (stages.length === 0) return [`${found} ${field}`];
  return stages.map((stage) => `${found} ${field} in ${stageNames[stage] ?? stage + 1}`);
}

function lastingFieldOf({ path, stages }: Identified, values: unknown): string {
  return path[0] === 'stages' && stages.length > 0 ? fieldAt(path) : lastingField(path, values);
}

/**
 * The same as one text for all stages. What holds in every stage is known without them, so that it stays the same when a
 * stage is added.
 */
export function lastingIdentity(finding: Identified, values: unknown, stageNames: readonly string[]): string {
  const isEverywhere = finding.stages.length === stageNames.length;
  const stages = isEverywhere ? [] : finding.stages;
  const field = lastingFieldOf(finding, values);
  const names = stages.map((stage) => stageNames[stage] ?? stage + 1);
  return [`${finding.found} ${field}`, ...(names.length > 0 ? [`in ${names.join(', ')}`] : [])].join(' ');
}

/** A place with the items of lists by what names them, else by their number. */
function lastingField(path: Path, values: unknown): string {
  return path
    .map((step, index) =>
      typeof step === 'number' ? (nameOf(valueAt(values, path.slice(0, index + 1))) ?? step + 1) : step,
    )
    .join('.');
}

/** What a problem of the text is known by in another state of it: its code and the field it stands in. */
export function problemIdentity(sheet: Pick<Sheet<unknown>, 'root' | 'values'>, { code, range }: Problem): string {
  return `${code} ${lastingField(entryAt(sheet.root, range.start).path, sheet.values)}`;
}
