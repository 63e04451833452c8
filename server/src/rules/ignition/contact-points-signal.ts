import type { StageRule } from '../../checking/rule.ts';
import { withoutPoints } from '../../remedies/points.ts';

export const rule: StageRule = {
  id: 'ignition/contact-points-signal',
  title: 'Speed signal from contact points',
  severity: 'warning',
  why: 'Points bounce and burn, and their signal is full of noise. While the distributor keeps the timing, a computer with a filtered input can live with them as long as points and condenser are sound; when they wear, it loses count of the sparks and the engine stalls.',
  inspect:
    'Watch the speed in a log from idle to redline: a line with teeth or drops is the points. Look at their faces and the gap.',
  remedy:
    'Switch the signal filter of the computer on, fit fresh points with the condenser the maker names, or fit a pickup in their place.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.trigger !== 'contact-points' || ignition.timing !== 'distributor') return undefined;
    return {
      at: 'ignition.trigger',
      message:
        'The computer takes its speed from contact points. Switch its signal filter on and keep the points fresh, or fit a pickup.',
      related: [{ at: 'ignition.timing', message: 'The distributor keeps the timing.' }],
      repairs: withoutPoints(ignition),
    };
  },
};
