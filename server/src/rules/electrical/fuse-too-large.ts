import { fuseLimit, fuseNeeded, pumpCircuitDropShare } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { bladeUpTo, isWireTooThin, thickerWire } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-too-large',
  title: 'Fuse too large for the pump wire',
  severity: 'error',
  why: 'The fuse protects the wire, not the pump. With too large a fuse the wire burns before the fuse opens, next to fuel. The figures are on the safe side; local codes and the licensed trade decide what a wire may carry.',
  inspect:
    'Read the fuse, and read the gauge on the wire where it is thinnest: after the relay, at the tank, in the pigtail of the pump.',
  remedy: 'Fit the smaller fuse if it carries the pump, or run thicker wire all the way.',
  source: 'vehicle-wire practice: 0.8 of the current of ABYC E-11, engine spaces, partly from memory',
  check: (situation) => {
    const { values, see, show, showValue } = situation;
    const circuit = values.electrical?.['pump-circuit'];
    const protects = see(fuseLimit);
    if (!circuit?.fuse || !protects) return undefined;
    if (circuit.fuse.value <= protects.value || isWireTooThin(situation)) return undefined;
    const smaller = see(fuseNeeded)?.value ?? bladeUpTo(protects.value);
    const wire = thickerWire(situation, circuit.fuse.value);
    return {
      at: 'electrical.pump-circuit.fuse',
      message: `A fuse of ${show(circuit.fuse)} does not protect ${show(circuit.wire)} wire, which wants ${show(protects)} at most.`,
      related: [{ at: 'electrical.pump-circuit.wire', message: 'The wire the fuse has to protect.' }],
      repairs: [
        ...(smaller
          ? [
              {
                title: `Fit a fuse of ${showValue(smaller, 'current')}`,
                set: { 'electrical.pump-circuit.fuse': showValue(smaller, 'current') },
              },
            ]
          : []),
        ...(wire
          ? [
              {
                title: `Run ${wire} wire to the pump`,
                set: { 'electrical.pump-circuit.wire': wire },
                shows: pumpCircuitDropShare,
              },
            ]
          : []),
      ],
    };
  },
};
