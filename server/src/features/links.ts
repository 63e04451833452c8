import { rules } from '../generated/rules.ts';
import type { Entry } from '../sheet/entry.ts';
import type { Range } from '../text/place.ts';

/** A stretch of text that names a rule, whose page it leads to. */
export type RuleLink = { range: Range; rule: string };

/** The rules a sheet silences. */
export function linksOf(root: Entry): RuleLink[] {
  const known = new Set<unknown>(rules.map(({ id }) => id));
  const silence = root.children.find(({ path }) => path[0] === 'silence');
  return (silence?.children ?? []).flatMap((item) => {
    const rule = item.children.find(({ path }) => path.at(-1) === 'rule');
    return rule && known.has(rule.scalar) ? [{ range: rule.value, rule: String(rule.scalar) }] : [];
  });
}
