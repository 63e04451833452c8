import type { PlanRule, Situation } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/power-falls',
  title: 'Power falls from one stage to the next',
  severity: 'information',
  why: 'Stages build on one another, and each is meant to make more power unless fuel, engine, boost or nitrous say why not. Perhaps the stages stand in the wrong order, or a power is mistyped.',
  inspect: 'Read the stages in order.',
  remedy: 'Correct the power or the order, or write down what costs the power.',
  source: 'common practice',
  checkPlan: (plan) =>
    plan.slice(1).flatMap((situation) => {
      const before = plan[situation.index - 1] as Situation;
      const [power, earlier] = [situation.stage.power, before.stage.power];
      if (!power || !earlier || power.value >= earlier.value || hasReason(situation, before)) return [];
      const { index, name, show } = situation;
      return [
        {
          at: inStage(index, 'stages.power'),
          message: `Power falls from ${show(earlier)} in stage "${before.name}" to ${show(power)} in stage "${name}", but nothing in the stage says why.`,
          related: [{ at: inStage(index - 1, 'stages.power'), message: 'The stage before.' }],
          repairs: [
            {
              title: `Keep the ${earlier.text} of the stage before`,
              changes: [{ set: inStage(index, 'stages.power'), to: earlier.text }],
            },
          ],
        },
      ];
    }),
};

/** Another engine or fuel, less boost, another blower, or nitrous that makes up for it. */
function hasReason({ stage, induction }: Situation, before: Situation): boolean {
  const isLessBoost = (stage.boost?.value ?? 0) < (before.stage.boost?.value ?? 0);
  const isOther = induction !== before.induction;
  return Boolean(stage.changes?.engine || stage.changes?.fuel || isLessBoost || isOther || stage.nitrous);
}
