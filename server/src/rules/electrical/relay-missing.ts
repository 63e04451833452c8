import { pumpCircuitCurrent } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { describedCircuit } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/relay-missing',
  title: 'Pump without a relay',
  severity: 'warning',
  why: "Neither the computer's pump output nor an old ignition switch is made for the pump's current: the output fails, or the switch burns and takes away the pump's voltage. A relay is also what impact and stall cut-off switch.",
  inspect:
    'See what the thick pump wire runs through: a toggle switch, the key, or the small output wire of the computer are all wrong.',
  remedy:
    "Let the computer's pump output drive the coil of a relay, and let the relay carry the pump, fed from the battery through the fuse.",
  source: 'common practice',
  check: (situation) => {
    const circuit = situation.values.electrical?.['pump-circuit'];
    const isOmitted = circuit?.relay === undefined && describedCircuit(situation) !== undefined;
    if (circuit?.relay !== false && !isOmitted) return undefined;
    const current = situation.see(pumpCircuitCurrent);
    const load = current ? `${situation.show(current)} of the pump` : "the pump's current";
    return {
      at: isOmitted ? 'electrical.pump-circuit' : 'electrical.pump-circuit.relay',
      message: isOmitted
        ? `The pump circuit names no relay to switch ${load}.`
        : `No relay switches the pump: ${load} would run through a switch or through the computer.`,
      repairs: [{ title: 'Switch the pump by a relay', set: { 'electrical.pump-circuit.relay': true } }],
    };
  },
};
