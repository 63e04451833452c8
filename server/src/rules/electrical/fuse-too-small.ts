import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { type Circuit, circuitsOf, isWireTooThin } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-too-small',
  title: 'Fuse too small for its load',
  severity: 'warning',
  capacity: true,
  why: 'A fuse that runs near its rating ages and opens one day without a fault, and the engine dies under load. The reserve also covers the pump starting and a filter that clogs, which both raise its current.',
  inspect:
    'Clamp meter on the wire at working pressure, fuel warm. The current should stay under four fifths of the fuse.',
  remedy:
    'Fit the next larger fuse that the wire allows. If the pump draws more than its flow sheet says, look for a clogged filter or a worn pump first.',
  source: 'common practice: 80 % of the rating; sizes ISO 8820-3, from memory',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => tooSmall(circuit, situation)),
};

function tooSmall(circuit: Circuit, situation: Situation): Draft[] {
  const { see, limit, show, showValue, compare } = situation;
  const { figures, noun, path, load } = circuit;
  const { fuse } = circuit.fields;
  const [needed, current] = [see(figures.fuseNeeded), see(figures.amps)];
  if (!fuse || !needed || !current) return [];
  const share = limit('fuse-share');
  const carries = fuse.value * share;
  if (current.value <= carries * (1 + 1e-9) || isWireTooThin(circuit, situation)) return [];
  const shown = compare(current, carries);
  const larger = showValue(needed.value, 'current');
  return [
    {
      at: `${path}.fuse`,
      message: `The ${noun} circuit draws ${shown.value} all the time; a fuse of ${show(fuse)} should carry no more than ${showValue(share, 'ratio')} of its rating, ${shown.limit}.`,
      related: [{ at: load, message: `What the ${noun} draws.` }],
      excess: current.value - carries,
      repairs: [{ title: `Fit a fuse of ${larger}`, set: { [`${path}.fuse`]: larger } }],
    },
  ];
}
