import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'ignition/contact-points',
  title: 'Contact points trigger the ignition',
  severity: 'error',
  why: 'Points bounce and burn, and their signal is full of noise: the computer miscounts the engine and stalls it. They also need a ballast, which takes away the coil voltage the computer counts on.',
  source: 'common practice',
  check: ({ values }) => {
    if (values.ignition?.trigger !== 'contact-points') return undefined;
    return {
      at: 'ignition.trigger',
      message: 'Contact points give the computer no signal it can rely on.',
      repairs: [
        {
          title: 'Fit a two-wire magnetic pickup with a driver module',
          set: {
            'ignition.trigger': 'magnetic-pickup',
            'ignition.driver': 'module',
            ...(values.ignition.supply && values.ignition.supply !== 'full-voltage'
              ? { 'ignition.supply': 'full-voltage' }
              : {}),
          },
        },
        {
          title: 'Fit a self-contained inductive distributor',
          set: {
            'ignition.trigger': 'inductive-distributor',
            'ignition.driver': 'distributor-module',
            'ignition.timing': 'distributor',
          },
        },
      ],
    };
  },
};
