import type { Draft, PlanRule, Situation } from '../../checking/rule.ts';
import { isFields, type Path } from '../../sheet/path.ts';
import { isQuantityValue } from '../../units/quantity.ts';

export const rule: PlanRule = {
  id: 'plan/change-without-effect',
  title: 'Change that changes nothing',
  severity: 'hint',
  why: 'A stage that sets a field to what it already was hides what is really done in that step, and its cost is counted for nothing. Perhaps another value was meant.',
  inspect: 'Compare the change with the stage before.',
  remedy: 'Take it out, or write the value that was meant.',
  source: 'definition',
  checkPlan: (plan) =>
    plan.slice(1).flatMap(({ stage, index, name }): Draft[] => {
      const before = plan[index - 1] as Situation;
      return same(stage.changes ?? {}, before.values, ['stages', index, 'changes']).map((at) => ({
        at,
        message: `Stage "${name}" sets ${fieldOf(at)} to what it already was in stage "${before.name}".`,
        repairs: [{ title: 'Take the change out', changes: [{ remove: at }], safe: true }],
      }));
    }),
};

/** Paths of the largest parts of a change that say what was said before. */
function same(change: unknown, before: unknown, path: Path): Path[] {
  if (!isFields(change)) return isSame(change, before) ? [path] : [];
  const inner = Object.entries(change).map(([name, value]) =>
    same(value, isFields(before) ? before[name] : undefined, [...path, name]),
  );
  const isWhole =
    inner.length > 0 && Object.keys(change).every((_, index) => inner[index]?.[0]?.length === path.length + 1);
  return isWhole ? [path] : inner.flat();
}

/** The field of a place in a stage's changes, or the changes as a whole. */
function fieldOf(place: Path): string {
  const field = place.slice(3).join('.');
  return field ? `"${field}"` : 'all that it changes';
}

/** Quantities are the same by their SI value and its ends, so that another unit makes no change; tables by what is in them. */
function isSame(one: unknown, other: unknown): boolean {
  if (isQuantityValue(one)) {
    return isQuantityValue(other) && (['value', 'low', 'high'] as const).every((end) => isNear(one[end], other[end]));
  }
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return one === other;
  const [fields, others] = [Object.entries(one), new Map(Object.entries(other))];
  return fields.length === others.size && fields.every(([name, value]) => isSame(value, others.get(name)));
}

function isNear(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-8 * Math.max(Math.abs(one), Math.abs(other));
}
