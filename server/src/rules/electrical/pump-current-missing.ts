import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/pump-current-missing',
  title: "Pump's current is not on the sheet",
  severity: 'hint',
  why: 'Wire, fuse and the voltage that arrives cannot be checked without it, and the flow of the pump is then computed with an assumed voltage. Take it from the flow sheet, at working pressure.',
  inspect: "Look in the pump's flow sheet for current at your pressure, or put a clamp meter on its wire.",
  remedy: 'Write the current at working pressure into the sheet; it decides wire, fuse and the volts that arrive.',
  source: 'common practice',
  check: ({ values }) => {
    const circuit = values.electrical?.['pump-circuit'];
    const pump = values['fuel-system']?.pump;
    if (!pump || pump.current || !circuit?.wire || !circuit.length) return undefined;
    return {
      at: 'fuel-system.pump',
      message: "The pump circuit is on the sheet and the pump's current is not, so wire and fuse are not checked.",
      related: [{ at: 'electrical.pump-circuit', message: 'The circuit it would load.' }],
    };
  },
};
