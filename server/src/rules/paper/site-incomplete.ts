import { hottestDay } from '../../analysis/air.ts';
import type { PlanRule, Related, Situation } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'paper/site-incomplete',
  title: 'Altitude or hottest day not known where they matter',
  severity: 'information',
  why: 'Thin air and hot fuel take away the suction head of an external pump, and a hot day brings a boosted engine nearer to knock. Figures for sea level and an ordinary summer day may be kinder than the place: write down the altitude and the hottest day the vehicle has to stand.',
  inspect: 'Highest pass of the usual roads, and the hottest afternoon of a summer there.',
  remedy: 'Write down altitude and hottest day.',
  source: 'ISO 2533:1975; common practice',
  checkPlan: (plan) => {
    const values = plan[0]?.values;
    const reasons = whyItMatters(plan);
    if (!values?.site || reasons.length === 0) return undefined;
    const { altitude, hottest } = values.site;
    const missing = [...(altitude ? [] : ['altitude']), ...(hottest ? [] : ['hottest day'])];
    if (missing.length === 0) return undefined;
    const assumed = [...(altitude ? [] : ['sea level']), ...(hottest ? [] : [`a day of ${assumedDay(plan)}`])];
    return {
      at: altitude ? 'site.hottest' : 'site.altitude',
      message: `The site has no ${missing.join(' and no ')}; ${assumed.join(' and ')} ${assumed.length > 1 ? 'are' : 'is'} assumed for ${reasons.map(({ what }) => what).join(' and ')}.`,
      related: reasons.map(({ at, message }) => ({ at, message })),
    };
  },
};

function whyItMatters(plan: readonly Situation[]): (Related & { what: string })[] {
  const isExternal = plan.some(({ values }) => values['fuel-system']?.pump?.placement === 'external');
  const boosted = plan.find(({ stage }) => (stage.boost?.value ?? 0) > 0);
  return [
    ...(isExternal
      ? [
          {
            what: 'the suction side of the external pump',
            at: 'fuel-system.pump.placement' as const,
            message: 'An external pump.',
          },
        ]
      : []),
    ...(boosted
      ? [{ what: 'the charge under boost', at: inStage(boosted.index, 'stages.boost'), message: 'Boost.' }]
      : []),
  ];
}

function assumedDay(plan: readonly Situation[]): string {
  const day = plan[0]?.know(hottestDay);
  return plan[0] && day ? plan[0].showValue(day, 'temperature') : 'ordinary heat';
}
