import type { StageRule } from '../../checking/rule.ts';
import { withoutPoints } from '../../remedies/points.ts';

export const rule: StageRule = {
  id: 'ignition/contact-points',
  title: 'Contact points trigger the ignition',
  severity: 'error',
  why: 'Points bounce and burn, and their signal is full of noise: the computer loses count of the sparks, and the engine stalls. A computer that is to time the spark cannot live with that.',
  inspect: 'Cap off: points and condenser, or a module and a pickup.',
  remedy: 'A distributor or a kit with a magnetic or hall pickup and a module, and full voltage to the coil.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.trigger !== 'contact-points' || ignition.timing === 'distributor') return undefined;
    return {
      at: 'ignition.trigger',
      message: 'Contact points give the computer no signal it can rely on.',
      repairs: withoutPoints(ignition),
    };
  },
};
