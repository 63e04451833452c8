import type { Draft, PlanRule, Repair } from '../../checking/rule.ts';
import { changedIn, type FieldPath, inChanges } from '../../sheet/path.ts';
import type { Quantity } from '../../units/quantity.ts';

/** Fields that mean another part when they change; those of a throttle body first, since its injectors come with it. */
const PARTS = {
  'throttle-body.power-rating': 'throttle body',
  'throttle-body.rated-airflow': 'throttle body',
  'throttle-body.bores.diameter': 'throttle body',
  'throttle-body.injectors.static-flow': 'set of injectors',
  'fuel-system.pump.flow-at': 'pump',
  'fuel-system.feed.inside-diameter': 'feed line',
  'fuel-system.return.inside-diameter': 'return line',
  'sensors.manifold-pressure.range': 'manifold-pressure sensor',
} as const;

/** Parts of which the one field is all there is to buy. */
const OF_ONE_FIELD = new Set<string>(['set of injectors', 'feed line', 'return line', 'manifold-pressure sensor']);

export const rule: PlanRule = {
  id: 'plan/bought-twice',
  title: 'Part replaced again in a later stage',
  severity: 'information',
  why: 'A part that is replaced in one stage and again in a later one is paid for twice. Often the later one can be bought at once; injectors must still idle in the earlier stage, which the other checks tell.',
  inspect: 'Put the parts of all stages side by side.',
  remedy: 'Buy the later part at once, where it also suits the earlier stage.',
  source: 'common practice',
  checkPlan: (plan) => {
    const told = new Map<string, Draft>();
    for (const [path, part] of Object.entries(PARTS) as [keyof typeof PARTS, string][]) {
      const changed = plan.filter(({ stage, index }) => index > 0 && fieldAt(stage.changes, path) !== undefined);
      const [first, last] = [changed[0], changed.at(-1)];
      const isTold = told.has(part) || (part === 'set of injectors' && told.has('throttle body'));
      if (!first || !last || first === last || isTold) continue;
      told.set(part, {
        at: inChanges(last.index, path),
        message: `The ${part} bought in stage "${first.name}" is replaced again in stage "${last.name}".`,
        related: [{ at: inChanges(first.index, path), message: 'Bought here for the first time.' }],
        repairs:
          OF_ONE_FIELD.has(part) && changed.length === 2
            ? atOnce(
                `Buy the ${part} of stage "${last.name}" at once`,
                first.index,
                last.index,
                last.stage.changes,
                path,
              )
            : [],
      });
    }
    return [...told.values()];
  },
};

/** The later value in the earlier stage, and the later change gone. */
function atOnce(title: string, early: number, late: number, changes: unknown, path: FieldPath): Repair[] {
  const { text } = fieldAt(changes, path) as Quantity;
  const steps = path.split('.');
  const alone = steps.findIndex((_, length) =>
    isOnly(fieldAt(changes, steps.slice(0, length).join('.')), steps, length),
  );
  const gone = alone < 0 ? steps : steps.slice(0, alone);
  return [
    {
      title,
      changes: [{ set: inChanges(early, path), to: text }, { remove: changedIn(late, gone) }],
    },
  ];
}

/** Whether a part of the changes leads to the field at the steps and to nothing else. */
function isOnly(part: unknown, steps: readonly string[], from: number): boolean {
  let inner = part;
  for (const step of steps.slice(from)) {
    const fields = inner as Record<string, unknown>;
    if (Object.keys(fields).length !== 1) return false;
    inner = fields[step];
  }
  return true;
}

function fieldAt(changes: unknown, path: string): unknown {
  if (path === '') return changes;
  return path.split('.').reduce((value, step) => (value as Record<string, unknown> | undefined)?.[step], changes);
}
