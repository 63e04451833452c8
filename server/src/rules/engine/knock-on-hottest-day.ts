import { hottestDay } from '../../analysis/air.ts';
import { fullLoad, fullLoadHottest, knockIndex, knockIndexHottest } from '../../analysis/knock.ts';
import type { StageRule } from '../../checking/rule.ts';
import { knockCause, knockMessage, knockOf, knockRelated, lateSparkOf } from '../../remedies/knock.ts';
import { hotDayRepairs } from '../../remedies/knock-repairs.ts';

export const rule: StageRule = {
  id: 'engine/knock-on-hottest-day',
  title: 'Knock on the hottest day',
  severity: 'information',
  why: 'Hot air makes a hot charge, and a hot charge knocks sooner. An engine at the limit on a warm day is over it on the hottest: timing that follows the air temperature, or a little less of it, keeps it whole.',
  inspect:
    'Ask whether the computer takes timing out by air temperature. Listen for knock on the hottest day, in a high gear.',
  remedy:
    'Take a few degrees out for hot air in the timing table, run better fuel in summer, or lead cool air to the engine.',
  source:
    'as for a warm day: Livengood and Wu (1955) with Douaud and Eyzat, SAE 780080 (1978), from memory; the reference engine is common practice',
  cautions: ['knock'],
  check: (situation) => {
    if (knockOf(situation, knockIndex, fullLoad) || lateSparkOf(situation)) return undefined;
    const knock = knockOf(situation, knockIndexHottest, fullLoadHottest);
    const day = situation.know(hottestDay);
    if (!knock || day === undefined) return undefined;
    const hottest = situation.values.site?.hottest;
    const shown = hottest ? situation.show(hottest) : situation.showValue(day, 'temperature');
    const at = knockCause(knock);
    return {
      at,
      message: `On the hottest day, of ${shown}, ${knockMessage(situation, knock)}.`,
      related: knockRelated(situation, at),
      ...knock.miss,
      repairs: hotDayRepairs(situation, knock),
    };
  },
};
