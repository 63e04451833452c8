import { fieldAt } from '../sheet/path.ts';
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
