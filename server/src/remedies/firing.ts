import { injectorCount } from '../analysis/injectors.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import { type FiringScheme, pulsesPerCycle } from '../engineering/injectors.ts';

const SCHEMES = {
  'every-ignition-event': 'Fire the injectors on every ignition event',
  alternating: 'Fire the injectors in turns, on every other ignition event',
  'twice-per-cycle': 'Fire the injectors once every crank turn',
  'once-per-cycle': 'Fire the injectors once in two crank turns',
} as const;

/** Pulses a cycle that cylinders sharing a plenum want at least: one for every two of them. Common practice. */
export function leastPulses(cylinders: number): number {
  return Math.ceil(cylinders / 2);
}

/** Whether all cylinders draw from the air the injectors spray into, with no blower between that would mix it. */
export function sharesPlenum({ values, path }: Pick<Situation, 'values' | 'path'>): boolean {
  return values.engine?.intake?.manifold !== 'individual-runner' && path !== 'draw-through';
}

/** Repairs that fire the injectors by another scheme, those with most pulses a cycle first. */
export function firingWith({ values }: Pick<Situation, 'values'>, wanted: (pulses: number) => boolean): Repair[] {
  const cylinders = values.engine?.cylinders;
  if (!cylinders) return [];
  const pulses = (scheme: FiringScheme) => pulsesPerCycle(scheme, cylinders);
  return (Object.keys(SCHEMES) as (keyof typeof SCHEMES)[])
    .filter((scheme) => wanted(pulses(scheme)))
    .toSorted((one, other) => pulses(other) - pulses(one))
    .map((scheme) => ({
      title: `${SCHEMES[scheme]}, if the computer can`,
      set: { 'throttle-body.injectors.firing': scheme },
    }));
}

/** The firing scheme with the most pulses that are at most this share of the present ones and still enough for the cylinders. */
export function slowerFiring(situation: Pick<Situation, 'values' | 'path' | 'see'>, share: number): Repair[] {
  const cylinders = situation.values.engine?.cylinders;
  if (!cylinders) return [];
  const present = pulsesPerCycle(situation.values['throttle-body']?.injectors?.firing ?? 'twice-per-cycle', cylinders);
  const least = sharesPlenum(situation) ? leastPulses(cylinders) / (situation.see(injectorCount)?.value ?? 1) : 0;
  return firingWith(situation, (pulses) => pulses <= present * share && pulses >= least).slice(0, 1);
}
