import type { Draft, Repair, Situation, StageRule } from '../../checking/rule.ts';
import { bladeUpTo, type Circuit, circuitsOf, isWireTooThin, thickerWire } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-too-large',
  title: 'Fuse too large for the wire',
  severity: 'error',
  why: 'The fuse protects the wire, not the load. With too large a fuse the wire burns before the fuse opens, next to fuel. The figures are on the safe side; local codes and the licensed trade decide what a wire may carry.',
  inspect:
    'Read the fuse, and read the gauge on the wire where it is thinnest: after the relay, at the tank, in the pigtail of the pump.',
  remedy: 'Fit the smaller fuse if it carries the load, or run thicker wire all the way.',
  source: 'vehicle-wire practice: 0.8 of the current of ABYC E-11, engine spaces, partly from memory',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => tooLarge(circuit, situation)),
};

function tooLarge(circuit: Circuit, situation: Situation): Draft[] {
  const { see, show, showValue } = situation;
  const { figures, fields, noun, path } = circuit;
  const protects = see(figures.fuseLimit);
  if (!fields.fuse || !protects) return [];
  if (fields.fuse.value <= protects.value || isWireTooThin(circuit, situation)) return [];
  const smaller = see(figures.fuseNeeded)?.value ?? bladeUpTo(protects.value);
  const wire = thickerWire(circuit, situation, fields.fuse.value);
  const repairs: Repair[] = [];
  if (smaller) {
    const fuse = showValue(smaller, 'current');
    repairs.push({ title: `Fit a fuse of ${fuse}`, set: { [`${path}.fuse`]: fuse } });
  }
  if (wire)
    repairs.push({
      title: `Run ${wire} wire to the ${noun}`,
      set: { [`${path}.wire`]: wire },
      shows: figures.dropShare,
    });
  return [
    {
      at: `${path}.fuse`,
      message: `A fuse of ${show(fields.fuse)} does not protect ${show(fields.wire)} wire, which wants ${show(protects)} at most.`,
      related: [{ at: `${path}.wire`, message: 'The wire the fuse has to protect.' }],
      repairs,
    },
  ];
}
