import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/coolant-sensor-missing',
  title: 'No coolant sensor',
  severity: 'error',
  why: 'A cold engine needs much more fuel than a warm one, and the computer knows only from this sensor which it has. Without it the engine starts badly cold or floods warm, and never goes over to closed loop.',
  inspect: 'Look for a two-wire sensor in the intake or the head, apart from the sender of the gauge.',
  remedy: 'Fit the sensor that the computer names, where coolant moves.',
  source: 'common practice',
  check: ({ values }) => {
    const { sensors } = values;
    const placement = sensors?.coolant?.placement;
    const isOmitted = sensors?.['manifold-pressure'] && sensors.oxygen && !sensors.coolant;
    if (placement !== 'none' && !isOmitted) return undefined;
    return {
      at: isOmitted ? 'sensors.coolant' : 'sensors.coolant.placement',
      message: isOmitted ? 'No coolant sensor is among the sensors.' : 'No coolant sensor is fitted.',
      repairs: [{ title: 'Fit a coolant sensor where coolant moves', set: { 'sensors.coolant.placement': 'wet' } }],
    };
  },
};
