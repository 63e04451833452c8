import type { Repair, Situation } from '../checking/rule.ts';
import { type FiringScheme, pulsesPerCycle } from '../engineering/injectors.ts';

const SCHEMES = {
  alternating: 'Fire the injectors in turns, on every other ignition event',
  'twice-per-cycle': 'Fire the injectors once every crank turn',
  'once-per-cycle': 'Fire the injectors once in two crank turns',
} as const;

/** The firing scheme with the most pulses that are still at most this share of the present ones. */
export function slowerFiring({ values }: Pick<Situation, 'values'>, share: number): Repair[] {
  const cylinders = values.engine?.cylinders;
  if (!cylinders) return [];
  const pulses = (scheme: FiringScheme) => pulsesPerCycle(scheme, cylinders);
  const present = pulses(values['throttle-body']?.injectors?.firing ?? 'twice-per-cycle');
  const slower = (Object.keys(SCHEMES) as (keyof typeof SCHEMES)[])
    .filter((scheme) => pulses(scheme) <= present * share)
    .toSorted((one, other) => pulses(other) - pulses(one))[0];
  if (!slower) return [];
  return [{ title: `${SCHEMES[slower]}, if the computer can`, set: { 'throttle-body.injectors.firing': slower } }];
}
