import type { PlanRule } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/stage-name-twice',
  title: 'Two stages of the same name',
  severity: 'warning',
  why: 'Findings, tables and `silence` entries speak of a stage by its name: with two of one name nobody knows which is meant, and a `silence` entry for one silences both.',
  inspect: 'Read the names of the stages.',
  remedy: 'Give each stage a name of its own.',
  source: 'definition',
  checkPlan: (plan) => {
    const names = plan.map(({ stage }) => stage.name);
    return plan
      .filter(({ stage, index }) => stage.name && names.indexOf(stage.name) < index)
      .map(({ stage, index }) => {
        const first = names.indexOf(stage.name);
        let number = 2;
        while (names.includes(`${stage.name} ${number}`)) number++;
        return {
          at: inStage(index, 'stages.name'),
          message: `Stage ${index + 1} has the same name as stage ${first + 1}, "${stage.name}".`,
          related: [{ at: inStage(first, 'stages.name'), message: 'The other stage of this name.' }],
          repairs: [
            {
              title: `Call it "${stage.name} ${number}"`,
              changes: [{ set: inStage(index, 'stages.name'), to: `${stage.name} ${number}` }],
            },
          ],
        };
      });
  },
};
