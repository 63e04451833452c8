import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { type Circuit, circuitsOf, isWireTooThin, thickerWire } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/wire-too-thin',
  title: 'Wire too thin for its current',
  severity: 'error',
  capacity: true,
  why: 'A fuse that lets the load run no longer protects this wire: where it chafes it glows along its whole length, next to fuel. The figures are on the safe side; local codes and the licensed trade decide what a wire may carry.',
  inspect:
    'Read the gauge on the wire where it is thinnest, and look for insulation that has turned hard, shiny or brown.',
  remedy: 'Run thicker wire with its own fuse, away from edges and exhaust, in loom, with a grommet at each hole.',
  source:
    'vehicle-wire practice: 0.8 of the current of ABYC E-11, engine spaces, partly from memory; fuse sizes ISO 8820-3',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => thin(circuit, situation)),
};

function thin(circuit: Circuit, situation: Situation): Draft[] {
  const { see, show } = situation;
  const { figures, fields, noun, path, load } = circuit;
  const [needed, protects] = [see(figures.fuseNeeded), see(figures.fuseLimit)];
  if (!needed || !protects || !isWireTooThin(circuit, situation)) return [];
  const wire = thickerWire(circuit, situation, needed.value);
  const fits = fields.fuse && fields.fuse.value >= needed.value && fields.fuse.value <= needed.value * 1.01;
  const fuse = show(needed);
  const set = {
    [`${path}.wire`]: wire as string,
    ...(fits ? {} : { [`${path}.fuse`]: fuse }),
  };
  const title = `Run ${wire} wire to the ${noun}${fits ? '' : ` with a fuse of ${fuse}`}`;
  return [
    {
      at: `${path}.wire`,
      message: `${show(fields.wire)} is too thin for the ${noun}: ${show(see(figures.amps))} needs a fuse of ${fuse}, and one over ${show(protects)} does not protect this wire.`,
      related: [{ at: load, message: `What the ${noun} draws.` }],
      excess: needed.value - protects.value,
      repairs: wire ? [{ title, set, shows: figures.dropShare }] : [],
    },
  ];
}
