import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { above } from '../../checking/rule.ts';
import { type Circuit, circuitsOf, contactLimit } from '../../remedies/circuits.ts';

/** What new connectors, relay and fuse lose together, V. Common practice, from memory. */
const RENEWED = 0.2;

export const rule: StageRule = {
  id: 'electrical/connector-drop',
  title: 'Relay contacts and connectors lose voltage',
  severity: 'warning',
  why: 'A contact that loses voltage turns the current into heat at one small spot, where the plug melts and may catch fire. The load behind it slows down as the contact ages.',
  inspect:
    'Load running. One meter lead on either side of the relay, of each plug, of the fuse holder: a good contact loses a few hundredths of a volt. A plug that has turned brown or soft is the bad one.',
  remedy: 'Replace the relay and the terminals, crimped with the proper tool, and bolt the ground to clean metal.',
  source: 'common practice, from memory: 0.1 V a connection, 0.3 V in all',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => contacts(circuit, situation)),
};

function contacts({ figures, fields, noun, path }: Circuit, { see, show, showValue }: Situation): Draft[] {
  const { connectors } = fields;
  const miss = above(connectors, contactLimit);
  if (!connectors || !miss) return [];
  const current = see(figures.amps);
  const heat = current
    ? `, which is ${Math.round(connectors.value * current.value)} W of heat at ${show(current)}`
    : '';
  const renewed = showValue(RENEWED, 'voltage');
  return [
    {
      at: `${path}.connectors`,
      message: `Relay contacts and connectors of the ${noun} circuit lose ${show(connectors)}, over ${showValue(contactLimit, 'voltage')}${heat}.`,
      ...miss,
      repairs: [
        {
          title: `Renew relay, terminals and ground until they lose no more than ${renewed}`,
          set: { [`${path}.connectors`]: renewed },
          shows: figures.voltage,
        },
      ],
    },
  ];
}
