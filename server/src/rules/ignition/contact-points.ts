import type { Settings, StageRule } from '../../checking/rule.ts';
import { computerTimingFields, distributorTiming } from '../../remedies/computer-timing.ts';
import { magneticPickup } from '../../remedies/pickup.ts';

export const rule: StageRule = {
  id: 'ignition/contact-points',
  title: 'Contact points trigger the ignition',
  severity: 'error',
  why: 'Points bounce and burn, and their signal is full of noise: the computer loses count of the sparks, and the engine stalls. With the distributor keeping the timing and a filtered signal some computers live with them; with the computer timing the spark none does.',
  inspect: 'Cap off: points and condenser, or a module and a pickup.',
  remedy:
    'A distributor or a kit with a magnetic or hall pickup and a module, and full voltage to the coil. Points that stay want a good condenser, a clean gap and the signal filter of the computer switched on.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.trigger !== 'contact-points') return undefined;
    const supply: Settings =
      ignition.supply && ignition.supply !== 'full-voltage' ? { 'ignition.supply': 'full-voltage' } : {};
    const ballast = ignition.coil?.ballast ? (['ignition.coil.ballast'] as const) : [];
    const others = computerTimingFields(ignition);
    return {
      at: 'ignition.trigger',
      message: 'Contact points give the computer no signal it can rely on.',
      repairs: [
        {
          title: `Fit a two-wire magnetic pickup${'ignition.driver' in others ? ' with a driver module' : ''}`,
          set: { ...magneticPickup(ignition), ...others, ...supply },
          remove: ballast,
        },
        {
          title: 'Fit a distributor with coil and module built in',
          set: {
            'ignition.trigger': 'inductive-distributor',
            'ignition.driver': 'distributor-module',
            ...distributorTiming(ignition).set,
            ...supply,
            ...(ignition['tach-signal'] && { 'ignition.tach-signal': 'coil-negative' }),
          },
          remove: ballast,
        },
      ],
    };
  },
};
