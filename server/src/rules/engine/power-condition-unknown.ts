import { powerCondition } from '../../analysis/claim.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'engine/power-condition-unknown',
  title: 'Not said in what air the power was measured',
  severity: 'information',
  why: 'The same engine makes a quarter less power at 2,400 m than at the sea, and a dyno sheet is corrected to the air of a standard. Which of the two a number is decides how much fuel the engine needs when it is driven down.',
  inspect: 'Read the head of the dyno sheet: SAE, STD or uncorrected, and at the wheels or at the crank.',
  remedy: 'Write down which it is. A number known from driving the car is "as driven".',
  source: 'SAE J1349 (1990) and J607, read in secondary copies',
  check: ({ values, stage, know }) => {
    if (values.format !== 2 || !stage.power || stage['power-condition']) return undefined;
    if (know(powerCondition) === undefined) return undefined;
    const set = (condition: string, title: string) => ({ title, set: { 'stages.power-condition': condition } });
    return {
      at: 'stages.power',
      message: `${stage.power.text} are taken as driven, in the air of the site: the sheet does not say in what air they hold.`,
      repairs: [
        set('standard', 'They are corrected to the standard, SAE J1349'),
        set('older-standard', 'They are corrected to the older standard, STD'),
        set('as-driven', 'They are as driven at the site'),
      ],
    };
  },
};
