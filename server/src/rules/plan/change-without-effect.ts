import type { Draft, PlanRule, Situation } from '../../checking/rule.ts';
import type { Path } from '../../sheet/path.ts';
import type { Quantity } from '../../units/quantity.ts';

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
      return same(stage.changes, before.values, ['stages', index, 'changes']).map((at) => ({
        at,
        message: `Stage "${name}" sets ${fieldOf(at)} to what it already was in stage "${before.name}".`,
        repairs: [{ title: 'Take the change out', changes: [{ remove: at }], safe: true }],
      }));
    }),
};

/** Paths of the largest parts of a change that say what was said before. */
function same(change: unknown, before: unknown, path: Path): Path[] {
  if (!isFields(change)) return JSON.stringify(plain(change)) === JSON.stringify(plain(before)) ? [path] : [];
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

/** Quantities by their SI value, so that another unit for the same makes no change. */
function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (!isQuantity(value)) return value;
  return [value.value, value.low, value.high].map((number) => number.toPrecision(9));
}

function isQuantity(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'dimension' in value;
}

function isFields(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !isQuantity(value);
}
