import type { StageRule } from '../../checking/rule.ts';
import { engineInWords, knockCause, knockRelated, LEAST_USEFUL_SPARK, lateSparkOf } from '../../remedies/knock.ts';
import { lateSparkRepairs } from '../../remedies/knock-repairs.ts';

export const rule: StageRule = {
  id: 'engine/spark-held-late',
  title: 'Only a late spark keeps knock away',
  severity: 'warning',
  why: 'What is burned late leaves the cylinder hot: exhaust valves, turbine and pistons get the heat that should have become power. An engine that must be held so late is short of octane, of cooling or of room in the chamber, and one hot day or one bad tank breaks it.',
  inspect: 'Measure the air temperature behind the blower at full load, and the exhaust temperature at the port.',
  remedy: 'A cooler charge, better fuel, less boost or less compression; timing alone does not mend it.',
  source:
    'knock integral of Livengood and Wu (1955) with the delay of Douaud and Eyzat, SAE 780080 (1978), from memory; 15 degrees as the least useful spark is common practice',
  cautions: ['knock'],
  check: (situation) => {
    const late = lateSparkOf(situation);
    if (!late) return undefined;
    const { limit, spark } = late.allowed;
    const most = limit === 'never' ? 'no spark at all' : `only about ${Math.floor(spark)} deg of spark`;
    const at = knockCause(late);
    return {
      at,
      message: `${engineInWords(situation)} stands ${most} at 3,000 rpm before it knocks; with less than ${LEAST_USEFUL_SPARK} deg exhaust and pistons overheat.`,
      related: knockRelated(situation, at),
      ...late.miss,
      repairs: lateSparkRepairs(situation, late),
    };
  },
};
