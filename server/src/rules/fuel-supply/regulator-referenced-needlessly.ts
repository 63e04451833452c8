import { sitePressure } from '../../analysis/air.ts';
import type { Situation, StageRule } from '../../checking/rule.ts';
import { IDLE_MANIFOLD_PRESSURE } from '../../engineering/idle.ts';

export const rule: StageRule = {
  id: 'fuel-supply/regulator-referenced-needlessly',
  title: 'The regulator follows the manifold, but the injectors do not',
  severity: 'warning',
  why: 'Above the throttle plates the injectors spray into the open air, whatever the manifold does. A regulator hung on the manifold then lowers the rail with vacuum and raises it with boost, so the injector flow swings while the computer counts on a steady one.',
  inspect: 'Pull the hose off the regulator at idle and plug it: if the rail jumps, the regulator followed the vacuum.',
  remedy: 'Leave the nipple open to the air, with a small filter on it, and plug the manifold port.',
  source: 'pressure balance at the injector; common practice',
  check: ({ values, see, showValue, plan }) => {
    const discharge = values['throttle-body']?.injectors?.discharge;
    const reference = values['fuel-system']?.regulator?.reference;
    if (reference !== 'manifold' || discharge !== 'above-throttle' || plan.some(isBlownThrough)) return undefined;
    const ambient = see(sitePressure);
    const idle = values.engine?.['idle-manifold-pressure']?.value ?? IDLE_MANIFOLD_PRESSURE;
    const lost = ambient ? showValue(Math.max(0, ambient.value - idle), 'pressure') : undefined;
    return {
      at: 'fuel-system.regulator.reference',
      message: `The injectors discharge above the throttle plates, but the regulator follows the manifold${lost ? `: vacuum takes up to ${lost} off the rail at idle` : ''}.`,
      related: [{ at: 'throttle-body.injectors.discharge', message: 'No vacuum and no boost here.' }],
      repairs: [
        {
          title: 'Leave the regulator open to the atmosphere',
          set: { 'fuel-system.regulator.reference': 'atmosphere' },
        },
      ],
    };
  },
};

/** Whether the throttle body sees boost in a stage. */
function isBlownThrough({ stage: { induction = 'natural', path } }: Situation): boolean {
  if (induction === 'natural') return false;
  return (path ?? (induction === 'roots' ? 'draw-through' : 'blow-through')) === 'blow-through';
}
