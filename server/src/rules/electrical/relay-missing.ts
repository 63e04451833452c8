import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { type Circuit, circuitsOf, isDescribed } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/relay-missing',
  title: 'Load without a relay',
  severity: 'warning',
  why: "Neither the computer's outputs nor an old ignition switch is made for such a current: the output fails, or the switch burns and takes the voltage away. A relay is also what impact and stall cut-off of a pump switch.",
  inspect:
    'See what the thick wire runs through: a toggle switch, the key, or the small output wire of the computer are all wrong.',
  remedy:
    "Let the computer's output drive the coil of a relay, and let the relay carry the load, fed from the battery through the fuse.",
  source: 'common practice',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => missing(circuit, situation)),
};

function missing(circuit: Circuit, { see, show }: Situation): Draft[] {
  const { figures, fields, noun, path } = circuit;
  const isOmitted = fields.relay === undefined && isDescribed(circuit);
  if (fields.relay !== false && !isOmitted) return [];
  const current = see(figures.amps);
  const load = current ? `${show(current)} of the ${noun}` : `the ${noun}'s current`;
  return [
    {
      at: isOmitted ? path : `${path}.relay`,
      message: isOmitted
        ? `The ${noun} circuit names no relay to switch ${load}.`
        : `No relay switches the ${noun}: ${load} would run through a switch or through the computer.`,
      repairs: [{ title: `Switch the ${noun} by a relay`, set: { [`${path}.relay`]: true } }],
    },
  ];
}
