import { hasLiftPump } from '../../analysis/loads.ts';
import type { Draft, StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/pump-current-missing',
  title: "Pump's current is not on the sheet",
  severity: 'hint',
  why: 'Wire, fuse and the voltage that arrives cannot be checked without it, and the flow of the pump is then computed with an assumed voltage. Take it from the flow sheet, at working pressure.',
  inspect: "Look in the pump's flow sheet for current at your pressure, or put a clamp meter on its wire.",
  remedy: 'Write the current at working pressure into the sheet; it decides wire, fuse and the volts that arrive.',
  source: 'common practice',
  check: ({ values, know }) => {
    const system = values['fuel-system'];
    const electrical = values.electrical;
    const drafts: Draft[] = [];
    const circuit = electrical?.['pump-circuit'];
    if (system?.pump && !system.pump.current && circuit?.wire && circuit.length)
      drafts.push({
        at: 'fuel-system.pump',
        message: "The pump circuit is on the sheet and the pump's current is not, so wire and fuse are not checked.",
        related: [{ at: 'electrical.pump-circuit', message: 'The circuit it would load.' }],
      });
    const lift = know(hasLiftPump) ? electrical?.['lift-pump-circuit'] : undefined;
    if (lift?.wire && lift.length && !system?.['lift-pump']?.current)
      drafts.push({
        at: 'electrical.lift-pump-circuit',
        message:
          "The lift pump's circuit is on the sheet and its current is not, so wire, fuse and alternator are not checked.",
      });
    return drafts;
  },
};
