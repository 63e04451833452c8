import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-leak',
  title: 'Exhaust joints leak before the oxygen sensor',
  severity: 'warning',
  why: 'Between the pulses of the exhaust a loose joint draws air in. The sensor takes it for a lean mixture, and the computer adds fuel that the engine does not need.',
  inspect:
    'Outdoors, cold engine at idle, a rag held to the tailpipe for a moment: hiss and ticking show the leak. Soot at a joint means the same.',
  remedy: 'Weld the joints, or seal them with gaskets and good flanges, from the port to the sensor.',
  source: 'common practice',
  cautions: ['welding'],
  check: ({ values }) => {
    if (values.sensors?.oxygen?.['joints-upstream'] !== 'slip') return undefined;
    return {
      at: 'sensors.oxygen.joints-upstream',
      message: 'Slip joints before the oxygen sensor let air into the exhaust.',
      repairs: [
        { title: 'Weld the joints or seal them with gaskets', set: { 'sensors.oxygen.joints-upstream': 'sealed' } },
      ],
    };
  },
};
