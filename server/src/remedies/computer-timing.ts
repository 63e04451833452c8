import type { Repair, Settings } from '../checking/rule.ts';
import type { Ignition } from '../generated/build-sheet.ts';

/** Whether the computer is to time the spark and could; contact points or a computer without a timing output are told by rules of their own. */
export function isTimedByComputer(ignition: Ignition | undefined): ignition is Ignition & { timing: 'computer' } {
  if (ignition?.timing !== 'computer') return false;
  return ignition['timing-output'] !== false && ignition.trigger !== 'contact-points';
}

/** Gives the timing back to the distributor; what was locked must move again. */
export function distributorTiming(ignition: Ignition): Repair {
  const isLocked = ignition.advance === 'locked';
  return {
    title: `Leave the timing to the distributor${isLocked ? ' and free its advance' : ''}`,
    set: {
      'ignition.timing': 'distributor',
      ...(isLocked ? { 'ignition.advance': 'mechanical-and-vacuum' } : {}),
    },
  };
}

/** What else a distributor needs for computer timing: a driver that is not the distributor's own, and nothing that moves by itself. */
export function computerTimingFields({ driver, advance, timing }: Ignition): Settings {
  const hasDriver = driver === 'module' || driver === 'computer' || driver === 'capacitive-discharge';
  const moves = timing === 'computer' && advance !== undefined && advance !== 'locked';
  return {
    ...(hasDriver ? {} : { 'ignition.driver': 'module' }),
    ...(moves ? { 'ignition.advance': 'locked' } : {}),
  };
}
