import type { Settings } from '../checking/rule.ts';
import type { Ignition } from '../generated/build-sheet.ts';

/** A two-wire magnetic pickup in place of the present trigger; nobody has checked the polarity of the new one. */
export function magneticPickup({ polarity }: Ignition): Settings {
  return {
    'ignition.trigger': 'magnetic-pickup',
    ...(polarity ? { 'ignition.polarity': 'unverified' } : {}),
  };
}
