import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/cam-signal-missing',
  title: 'A coil for each cylinder without a cam signal',
  severity: 'error',
  why: 'The crank turns twice for each spark of a cylinder, and its wheel looks the same both times. Without a signal from the cam the computer cannot tell which of two cylinders is to fire; coils in pairs spark in both, single coils would have to guess.',
  inspect:
    'Look for a sensor at the cam or in the old place of the distributor, and for its tooth in the log of the computer.',
  remedy: 'Fit a cam sensor, or let the coils spark in pairs where the computer and the coils allow it.',
  source: 'kinematics of a four-stroke engine',
  check: ({ values }) => {
    const { ignition, engine } = values;
    if (ignition?.trigger !== 'crank-sensor' || ignition['cam-signal'] !== false) return undefined;
    const coils = ignition.coil?.quantity;
    if (coils === undefined || engine?.cylinders === undefined || coils < engine.cylinders) return undefined;
    return {
      at: 'ignition.cam-signal',
      message: `${coils} coils for ${engine.cylinders} cylinders need a cam signal, and there is none: fit a cam sensor, or fire the coils in pairs.`,
      related: [{ at: 'ignition.coil.quantity', message: 'A coil for each cylinder.' }],
      repairs: [{ title: 'Fit a cam sensor', set: { 'ignition.cam-signal': true } }],
    };
  },
};
