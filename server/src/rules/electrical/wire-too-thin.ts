import { fuseLimit, fuseNeeded, pumpCircuitCurrent, pumpCircuitDropShare } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { isWireTooThin, thickerWire } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/wire-too-thin',
  title: 'Pump wire too thin for its current',
  severity: 'error',
  capacity: true,
  why: 'A fuse that lets the pump run no longer protects this wire: where it chafes it glows along its whole length, next to fuel. The figures are on the safe side; local codes and the licensed trade decide what a wire may carry.',
  inspect:
    'Read the gauge on the wire where it is thinnest, and look for insulation that has turned hard, shiny or brown.',
  remedy: 'Run thicker wire with its own fuse, away from edges and exhaust, in loom, with a grommet at each hole.',
  source:
    'vehicle-wire practice: 0.8 of the current of ABYC E-11, engine spaces, partly from memory; fuse sizes ISO 8820-3',
  check: (situation) => {
    const { values, see, show } = situation;
    const circuit = values.electrical?.['pump-circuit'];
    const needed = see(fuseNeeded);
    const protects = see(fuseLimit);
    if (!circuit?.wire || !needed || !protects || !isWireTooThin(situation)) return undefined;
    const wire = thickerWire(situation, needed.value);
    const fits = circuit.fuse && circuit.fuse.value >= needed.value && circuit.fuse.value <= needed.value * 1.01;
    const fuse = show(needed);
    return {
      at: 'electrical.pump-circuit.wire',
      message: `${show(circuit.wire)} is too thin for the pump: ${show(see(pumpCircuitCurrent))} needs a fuse of ${fuse}, and one over ${show(protects)} does not protect this wire.`,
      related: [{ at: 'fuel-system.pump.current', message: 'Current of one pump.' }],
      excess: needed.value - protects.value,
      repairs: wire
        ? [
            {
              title: fits ? `Run ${wire} wire to the pump` : `Run ${wire} wire to the pump with a fuse of ${fuse}`,
              set: {
                'electrical.pump-circuit.wire': wire,
                ...(fits ? {} : { 'electrical.pump-circuit.fuse': fuse }),
              },
              shows: pumpCircuitDropShare,
            },
          ]
        : [],
    };
  },
};
