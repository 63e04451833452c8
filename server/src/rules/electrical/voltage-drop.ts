import { pumpCircuitCurrent, pumpCircuitDrop, pumpCircuitDropShare } from '../../analysis/electrical.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { connectorAllowance } from '../../engineering/wiring.ts';
import { contactLimit, isWireTooThin, thickerWire } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/voltage-drop',
  title: 'Pump circuit loses too much voltage',
  severity: 'warning',
  capacity: true,
  why: 'A pump turns slower on less voltage. Its flow falls at full load, when the engine needs it most, and the mixture turns lean. What is lost in the wire heats it, next to a fuel tank.',
  inspect:
    'Pump running at working pressure: meter at the pump terminals and at the battery posts, at the same time. Subtract.',
  remedy:
    'Run thicker wire both ways from the battery by a relay close to the pump, or give each pump a circuit of its own.',
  source: "Ohm's law; wire by vehicle standards; the limit is common practice",
  check: (situation) => {
    const { values, see, limit, show, showValue } = situation;
    const share = see(pumpCircuitDropShare);
    const drop = see(pumpCircuitDrop);
    const circuit = values.electrical?.['pump-circuit'];
    const most = limit('voltage-drop');
    const miss = above(share, most);
    if (!miss || !drop || !share || !circuit?.wire || isWireTooThin(situation)) return undefined;
    const excess = drop.value - most * (drop.value / share.value);
    const contacts = circuit.connectors?.value ?? 0;
    if (contacts > contactLimit && contacts - connectorAllowance.value >= excess) return undefined;
    const wire = thickerWire(situation, circuit.fuse?.value ?? 0);
    const pumps = values['fuel-system']?.pump?.quantity ?? 1;
    return {
      at: 'electrical.pump-circuit.wire',
      message: `The pump circuit loses ${show(drop)}, ${show(share)} of the charging voltage and over the limit of ${showValue(most, 'ratio')}: ${show(circuit.wire)} is thin for ${show(see(pumpCircuitCurrent))} over ${show(circuit.length)} each way.`,
      related: [
        { at: 'electrical.pump-circuit.length', message: 'Length of the run, one way.' },
        { at: 'fuel-system.pump.current', message: 'Current of one pump.' },
      ],
      ...miss,
      repairs: [
        ...(wire
          ? [
              {
                title: `Run ${wire} wire to the pump`,
                set: { 'electrical.pump-circuit.wire': wire },
                shows: pumpCircuitDropShare,
              },
            ]
          : []),
        ...(circuit.shared && pumps > 1
          ? [
              {
                title: 'Give each pump a circuit of its own',
                set: { 'electrical.pump-circuit.shared': false },
                shows: pumpCircuitDropShare,
              },
            ]
          : []),
      ],
    };
  },
};
