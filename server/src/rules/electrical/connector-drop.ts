import { pumpCircuitCurrent, pumpVoltage } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { connectorAllowance } from '../../engineering/wiring.ts';
import { contactLimit } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/connector-drop',
  title: 'Relay contacts and connectors lose voltage',
  severity: 'warning',
  why: 'A contact that loses voltage turns the current into heat at one small spot, where the plug melts and may catch fire. The pump behind it slows down as the contact ages.',
  inspect:
    'Pump running. One meter lead on either side of the relay, of each plug, of the fuse holder: a good contact loses a few hundredths of a volt. A plug that has turned brown or soft is the bad one.',
  remedy: 'Replace the relay and the terminals, crimped with the proper tool, and bolt the ground to clean metal.',
  source: 'common practice, from memory: 0.1 V a connection, 0.3 V in all',
  check: ({ values, see, show, showValue }) => {
    const connectors = values.electrical?.['pump-circuit']?.connectors;
    if (!connectors || connectors.value <= contactLimit) return undefined;
    const current = see(pumpCircuitCurrent);
    const heat = current
      ? `, which is ${Math.round(connectors.value * current.value)} W of heat at ${show(current)}`
      : '';
    return {
      at: 'electrical.pump-circuit.connectors',
      message: `Relay contacts and connectors of the pump circuit lose ${show(connectors)}, over ${showValue(contactLimit, 'voltage')}${heat}.`,
      repairs: [
        {
          title: `Renew relay, terminals and ground until they lose no more than ${showValue(connectorAllowance.value, 'voltage')}`,
          set: { 'electrical.pump-circuit.connectors': showValue(connectorAllowance.value, 'voltage') },
          shows: pumpVoltage,
        },
      ],
    };
  },
};
