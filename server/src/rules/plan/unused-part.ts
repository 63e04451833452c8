import type { Draft, PlanRule, Situation } from '../../checking/rule.ts';
import { type FieldPath, inStage, stepsOf } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/unused-part',
  title: 'Entry that no stage uses',
  severity: 'information',
  why: 'An intercooler, a figure of a compressor or a retard that nothing in the plan makes use of changes nothing: the part is bought in vain, or the stage that should use it is written wrong.',
  inspect: 'See which stage was meant to use it.',
  remedy: 'Write it into that stage, or take it out.',
  source: 'definition',
  checkPlan: (plan) => {
    const isDescribed = plan.some(({ stage }) => stage.power || stage.induction);
    if (!isDescribed) return [];
    return [...plan.flatMap(withoutBlower), ...retards(plan), ...ratedPressureDrop(plan)];
  },
};

const OF_BLOWER = {
  'intercooler-effectiveness': 'An intercooler cools nothing',
  'compressor-efficiency': 'The efficiency of a compressor says nothing',
  path: 'The path through a compressor says nothing',
} as const;

/** Fields of a blower in a stage without one; boost without a blower is told by its own rule. */
function withoutBlower({ stage, index, induction }: Situation): Draft[] {
  if (induction !== 'natural' || stage.boost?.value) return [];
  return (Object.keys(OF_BLOWER) as (keyof typeof OF_BLOWER)[])
    .filter((field) => stage[field] !== undefined)
    .map((field) => ({
      at: inStage(index, `stages.${field}`),
      message: `${OF_BLOWER[field]} in a stage without a blower or turbo.`,
      related: stage.induction ? [{ at: inStage(index, 'stages.induction'), message: 'No compressor here.' }] : [],
      repairs: [{ title: 'Take it out', changes: [{ remove: inStage(index, `stages.${field}`) }], safe: true }],
    }));
}

function retards(plan: readonly Situation[]): Draft[] {
  const drafts: Draft[] = [];
  const { ignition } = plan.at(-1)?.values ?? {};
  if (ignition?.['retard-per-boost'] && plan.every(({ induction, stage }) => induction === 'natural' && !stage.boost))
    drafts.push(unused(plan, 'ignition.retard-per-boost', 'Timing is taken out for boost, but no stage has any.'));
  if (ignition?.['nitrous-retard'] && plan.every(({ stage }) => !stage.nitrous))
    drafts.push(unused(plan, 'ignition.nitrous-retard', 'Timing is taken out for nitrous, but no stage has any.'));
  return drafts;
}

function ratedPressureDrop(plan: readonly Situation[]): Draft[] {
  const body = plan.at(-1)?.values['throttle-body'];
  if (!body?.['rated-pressure-drop'] || body['rated-airflow']) return [];
  return [
    unused(plan, 'throttle-body.rated-pressure-drop', 'A rated pressure drop says nothing without the rated airflow.'),
  ];
}

/** An entry at the place that holds in the last stage. */
function unused(plan: readonly Situation[], path: FieldPath, message: string): Draft {
  const at = plan.at(-1)?.placeOf(path) ?? stepsOf(path);
  return { at, message, repairs: [{ title: 'Take it out', changes: [{ remove: at }], safe: true }] };
}
