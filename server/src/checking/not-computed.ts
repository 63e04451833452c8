import type { Finding, OpenCheck } from './finding.ts';

/** Id of the finding that tells checks which could not be made because a figure is impossible. */
export const NOT_COMPUTED = 'paper/not-computed';

/** Titles of the checks in one message; more are counted. */
const MOST_NAMED = 3;

/**
 * What keeps checks from being made where nothing else says it: one finding for each reason. Checks of hints and of
 * information are left out. `told`: reasons of which a rule has found something. In a text that could not all be read, what
 * makes a figure impossible may be a field that stands there unread: ask only of a whole one.
 */
export function notComputed(open: readonly OpenCheck[], told: ReadonlySet<string>): Finding[] {
  const kept = new Map<string, OpenCheck[]>();
  for (const check of open) {
    if (check.severity !== 'error' && check.severity !== 'warning') continue;
    for (const reason of check.impossible) {
      if (!told.has(reason)) kept.set(reason, [...(kept.get(reason) ?? []), check]);
    }
  }
  return [...kept].map(([reason, checks]) => ({
    rule: NOT_COMPUTED,
    found: NOT_COMPUTED,
    severity: 'information',
    message: `Not checked: ${named(checks)}. ${reason}`,
    path: ['format'],
    related: [],
    repairs: [],
    stages: [...new Set(checks.flatMap(({ stages }) => stages))],
  }));
}

function named(checks: readonly OpenCheck[]): string {
  const titles = checks.map(({ title }) => `"${title}"`);
  const more = titles.length - MOST_NAMED;
  return more > 0 ? `${titles.slice(0, MOST_NAMED).join(', ')} and ${more} more` : titles.join(', ');
}
