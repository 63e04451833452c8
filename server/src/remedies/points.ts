import type { Repair, Settings } from '../checking/rule.ts';
import type { Ignition } from '../generated/build-sheet.ts';
import { computerTimingFields, distributorTiming } from './computer-timing.ts';
import { magneticPickup } from './pickup.ts';

/** What takes the place of contact points, with full voltage to the coil. */
export function withoutPoints(ignition: Ignition): Repair[] {
  const supply: Settings =
    ignition.supply && ignition.supply !== 'full-voltage' ? { 'ignition.supply': 'full-voltage' } : {};
  const ballast = ignition.coil?.ballast ? (['ignition.coil.ballast'] as const) : [];
  const others = computerTimingFields(ignition);
  return [
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
  ];
}
