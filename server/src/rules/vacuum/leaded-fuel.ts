import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'vacuum/leaded-fuel',
  title: 'Leaded fuel with an oxygen sensor',
  severity: 'warning',
  why: 'Lead coats the oxygen sensor and ruins it within hours; its reading drifts long before it stops. The computer then trims the fuel by a wrong reading.',
  source: 'common practice',
  check: ({ values }) => {
    if (!values.fuel?.leaded || !values.sensors?.oxygen) return undefined;
    return {
      at: 'fuel.leaded',
      message: 'Leaded fuel ruins the oxygen sensor this computer trims the fuel by.',
      related: [{ at: 'sensors.oxygen', message: 'The oxygen sensor.' }],
      repairs: [{ title: 'Run unleaded fuel of the same octane', set: { 'fuel.leaded': false } }],
    };
  },
};
