import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyze } from '../../../server/src/analysis/analysis.ts';
import type { OpenCheck } from '../../../server/src/checking/finding.ts';
import { judge } from '../../../server/src/checking/judge.ts';
import { questionsOf } from '../../../server/src/checking/questions.ts';
import { changedValues } from '../../../server/src/sheet/changed.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { read } from '../sheet/marked.ts';

const good = read(readFileSync('samples/quarry-wagon.build.yaml', 'utf8')).values;

function judged(values: typeof good) {
  return judge(values, analyze(values, noHouse), noHouse);
}

/** Fields whose absence was once silent: what they decide must then be open, or told. */
const DECIDING = [
  'fuel-system.regulator',
  'fuel-system.tank',
  'fuel-system.pump.flow-at',
  'electrical.pump-circuit',
  'electrical.key-feed',
  'fuel-system.feed.material',
  'fuel-system.tank.return-entry',
  'throttle-body.injectors.rated-pressure',
  'throttle-body.injectors.dead-time',
  'fuel-system.mechanical-pump',
];

describe('a check that cannot be made', () => {
  const whole = judged(good);

  it.each(DECIDING)('is open, and asks for %s, once that is missing', (field) => {
    const given = changedValues(good, [{ remove: field.split('.') }]) ?? good;
    const { open } = judged(given);
    const asking = open.filter(({ lacks }) => lacks.some((lack) => field === lack || field.startsWith(`${lack}.`)));
    expect(asking.length, field).toBeGreaterThan(0);
    const lack = asking[0]?.lacks.find((one) => field === one || field.startsWith(`${one}.`)) ?? '';
    const asked = questionsOf(open).map((question) => question.field as string);
    expect(asked.some((one) => one === lack || one.startsWith(`${lack}.`))).toBe(true);
  });

  it('is neither kept nor broken: it is not among the findings of its stages', () => {
    for (const { rule, stages } of whole.open) {
      const broken = whole.findings.filter(({ found }) => found === rule).flatMap(({ stages: own }) => own);
      expect(stages.filter((stage) => broken.includes(stage))).toEqual([]);
    }
  });
});

describe('the questions', () => {
  const check = (rule: OpenCheck['rule'], severity: OpenCheck['severity'], lacks: OpenCheck['lacks']): OpenCheck => ({
    rule,
    title: rule,
    severity,
    stages: [0],
    lacks,
    lacksByStage: [lacks],
    impossible: [],
  });

  it('come weightiest first: by severity, by number of checks, and whole for what one field alone would settle', () => {
    const open = [
      check('engine/one', 'hint', ['engine.idle']),
      check('engine/two', 'error', ['engine.redline', 'engine.cylinders']),
      check('engine/three', 'error', ['engine.cylinders']),
      check('engine/four', 'warning', ['site.altitude']),
    ];
    expect(questionsOf(open).map(({ field }) => field)).toEqual([
      'engine.cylinders',
      'engine.redline',
      'site.altitude',
      'engine.idle',
    ]);
    expect(questionsOf(open)[0]?.checks).toEqual(['engine/two', 'engine/three']);
  });

  it('of a sheet that answers everything a rule asks are none', () => {
    expect(questionsOf([])).toEqual([]);
  });
});
