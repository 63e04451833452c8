import { coilCurrentAtRedline } from '../analysis/ignition.ts';
import { below, type Situation } from '../checking/rule.ts';

/** Whether battery current charges the coil, and no capacitive-discharge box fires it. */
export function isChargedByBattery({ values: { ignition } }: Pick<Situation, 'values'>): boolean {
  return ignition?.driver !== 'capacitive-discharge' && ignition?.coil?.['made-for'] !== 'capacitive-discharge';
}

/** Whether a ballast or resistance wire stands in the feed of the coil. */
export function hasBallast({ values: { ignition } }: Pick<Situation, 'values'>): boolean {
  const { supply, coil } = ignition ?? {};
  return (supply !== undefined && supply !== 'full-voltage') || Boolean(coil?.ballast?.value);
}

/** How far the current at redline stays under the working current, where no ballast is the reason. */
export function isSlow(situation: Pick<Situation, 'values' | 'see'>) {
  const wanted = situation.values.ignition?.coil?.['working-current'];
  if (!wanted || !isChargedByBattery(situation) || hasBallast(situation)) return undefined;
  return below(situation.see(coilCurrentAtRedline), wanted.value);
}
