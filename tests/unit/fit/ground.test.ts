import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyze } from '../../../server/src/analysis/analysis.ts';
import { type Answers, answersOf } from '../../../server/src/checking/ask.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import type { Rule } from '../../../server/src/checking/rule.ts';
import type { Build } from '../../../server/src/fit/build.ts';
import { completed } from '../../../server/src/fit/completed.ts';
import { FieldsRead } from '../../../server/src/fit/fields-read.ts';
import { Ground } from '../../../server/src/fit/ground.ts';
import { type Asked, asked } from '../../../server/src/fit/properties.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { changedValues } from '../../../server/src/sheet/changed.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { type FieldPath, fieldSchema, inStage, type Path, stepsOf } from '../../../server/src/sheet/path.ts';

/** What each rule says in each stage, with all of it worked out from the beginning. */
function saidAfresh({ house, unread, assumed }: Build, values: Build['values']): Answers {
  return answersOf(rules, analyze(values, house, [], unread, assumed), house);
}

function messages(answers: ReturnType<Answers['get']> = []): unknown[] {
  return answers.map(({ drafts }) => drafts.map(({ at, message, onlyAtBadEnd }) => [at, message, onlyAtBadEnd]));
}

/** Two values of a number, or every choice. */
function valuesOf(one: Asked): (string | boolean)[] {
  if ('dimension' in one) return [0.3, 0.6].map((share) => `${one.from * (one.to / one.from) ** share} ${one.unit}`);
  const schema = fieldSchema(one.field);
  return (schema?.enum as string[] | undefined) ?? [true, false];
}

function expectAsAfresh(build: Build, fields: readonly FieldPath[], sets: { set: Path; to: string | boolean }[][]) {
  const answers = answersOf(rules, build.plan, build.house);
  const read = new FieldsRead(fields);
  const ground = new Ground(build, answers, read, read.bitsOf(fields));
  let count = 0;
  for (const changes of sets) {
    const values = changedValues(build.values, changes);
    if (!values) continue;
    const plan = ground.plan(values);
    const ask = ground.asking(plan);
    const afresh = saidAfresh(build, values);
    const said = new Map(ground.rules.map((rule) => [rule, ask.everywhere(rule)] as const));
    const now = (rule: Rule) => said.get(rule) ?? answers.get(rule);
    for (const rule of afresh.keys())
      expect(messages(now(rule)), `${rule.id} with ${JSON.stringify(changes)}`).toEqual(messages(afresh.get(rule)));
    ground.gather(plan);
    ground.startFrom(plan, said);
    count++;
  }
  return count;
}

describe.each(['quarry-wagon', 'millrace-stroker', 'overreach-roadster'])(
  'a trial that takes over from others, %s',
  (name) => {
    const checked = checkText(readFileSync(`samples/${name}.build.yaml`, 'utf8'), noHouse);

    it('says of every part what it says from the beginning', { timeout: 120_000 }, () => {
      const build = completed(checked);
      const counts = asked.map((one) =>
        expectAsAfresh(
          build,
          [one.field],
          valuesOf(one).map((to) => [{ set: stepsOf(one.field), to }]),
        ),
      );
      expect(counts.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(90);
    });

    it('says of more power and boost what it says from the beginning', () => {
      const { sheet, plan, house } = checked;
      const build = { values: sheet.values, plan, house, assumed: [], unread: sheet.unread };
      const climbed = plan.map(({ index }) =>
        ['200 kW', '350 kW', '500 kW'].map((power, step) => [
          { set: inStage(index, 'stages.power'), to: power },
          ...(plan[index]?.sheet.stage.boost
            ? [{ set: inStage(index, 'stages.boost'), to: `${30 * step + 20} kPa` }]
            : []),
        ]),
      );
      expect(expectAsAfresh(build, ['stages.power', 'stages.boost'], climbed.flat())).toBe(3 * plan.length);
    });
  },
);
