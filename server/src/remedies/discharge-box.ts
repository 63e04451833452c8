import type { Settings } from '../checking/rule.ts';
import type { Ignition } from '../generated/build-sheet.ts';

/** A capacitive-discharge box that drives the coil, with the speed signal off the coil it then drives. */
export function dischargeBox(ignition: Ignition | undefined): Settings {
  return {
    'ignition.driver': 'capacitive-discharge',
    ...(ignition?.['tach-signal'] === 'coil-negative' ? { 'ignition.tach-signal': 'box-output' } : {}),
  };
}
