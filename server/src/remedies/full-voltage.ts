import type { FigureNode } from '../analysis/node.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import { bearsFullVoltage } from './coil-sizes.ts';

/** Takes a ballast out of the coil's feed, where the coil bears it. */
export function fullVoltage(situation: Pick<Situation, 'values' | 'know'>, shows?: FigureNode): Repair[] {
  const { supply, coil } = situation.values.ignition ?? {};
  const isInFeed = supply === 'ballast-resistor' || supply === 'resistance-wire';
  const hasOwn = Boolean(coil?.ballast?.value);
  if ((!isInFeed && !hasOwn) || !bearsFullVoltage(situation)) return [];
  return [
    {
      title:
        supply === 'resistance-wire'
          ? 'Run a new full-voltage wire to the coil, if the maker of the module says so'
          : 'Take the ballast out and feed the coil with full voltage, if the maker of the module says so',
      ...(isInFeed ? { set: { 'ignition.supply': 'full-voltage' } } : {}),
      ...(hasOwn ? { remove: ['ignition.coil.ballast'] as const } : {}),
      ...(shows && { shows }),
    },
  ];
}
