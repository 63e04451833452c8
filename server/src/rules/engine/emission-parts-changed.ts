import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import type { FieldPath } from '../../sheet/path.ts';
import { stepsOf, valueAt } from '../../sheet/path.ts';

/** What a look at the parts would miss, by the field that tells it. */
const CHANGED: readonly { field: FieldPath; is: readonly string[]; what: string }[] = [
  { field: 'engine.exhaust-recirculation', is: ['blocked', 'open'], what: 'the exhaust-gas recirculation' },
  {
    field: 'engine.crankcase-ventilation',
    is: ['breather', 'road-draft', 'none'],
    what: 'the closed crankcase ventilation',
  },
  { field: 'fuel-system.tank.canister', is: ['not-purged', 'open-hose'], what: 'the vapor canister with its purge' },
];

export const rule: StageRule = {
  id: 'engine/emission-parts-changed',
  title: 'Parts missing that an inspection looks for',
  severity: 'warning',
  why: 'An inspection that looks at the parts asks for what the car came with: crankcase ventilation, recirculation, canister. In many places taking them off a car for the road is an offense, whatever comes out of the exhaust.',
  inspect: 'The label under the hood lists what the car of that year came with; compare it hose by hose.',
  remedy:
    'Keep or refit what the label lists, worked as it was, or have the local authority say in writing that it may go.',
  source: 'common practice; 42 U.S.C. 7522 on tampering, from memory; the local authority decides',
  check: (situation) => {
    const kind = situation.values.inspection?.kind;
    if (kind !== 'visual' && kind !== 'visual-and-measured') return undefined;
    return changed(situation);
  },
};

function changed({ values }: Situation): Draft[] {
  const year = values.vehicle?.['model-year'];
  return CHANGED.flatMap(({ field, is, what }): Draft[] => {
    const value = valueAt(values, stepsOf(field));
    if (typeof value !== 'string' || !is.includes(value)) return [];
    return [
      {
        at: field,
        message: `The inspection looks at the parts${year === undefined ? '' : ` of a car of ${year}`} and misses ${what}: ask the local authority whether it may go.`,
        related: [{ at: 'inspection.kind', message: 'The inspection.' }],
      },
    ];
  });
}
