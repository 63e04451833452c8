import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-missing',
  title: 'No oxygen sensor',
  severity: 'warning',
  why: 'A computer that learns its fuel table needs the oxygen sensor to learn from. Without one nobody knows whether the mixture at full load is safe.',
  inspect: 'Look for a bung at or behind the collector.',
  remedy: 'Fit a wide-range sensor at the collector, behind the turbine where there is one.',
  source: 'common practice',
  cautions: ['welding'],
  check: ({ values, induction }) => {
    const { sensors } = values;
    if (!sensors?.['manifold-pressure'] || !sensors.coolant || sensors.oxygen) return undefined;
    const placement = induction === 'turbo' ? 'after-turbine' : 'collector';
    return {
      at: 'sensors.oxygen',
      message: 'No oxygen sensor is among the sensors.',
      repairs: [
        {
          title: `Fit a wide-range oxygen sensor after the ${induction === 'turbo' ? 'turbine' : 'collector'}`,
          set: { 'sensors.oxygen.placement': placement, 'sensors.oxygen.joints-upstream': 'sealed' },
        },
      ],
    };
  },
};
