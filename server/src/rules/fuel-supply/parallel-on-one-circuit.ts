import { pumpCircuit } from '../../analysis/circuits.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/parallel-on-one-circuit',
  title: 'Several pumps hang on one circuit',
  severity: 'warning',
  why: 'One fuse, one relay and one wire carry the current of all pumps: the voltage drops for each of them, and one blown fuse stops them all at once under load. Give each pump its own fuse, relay and wire, sized for it.',
  inspect: 'Count relays and fuses: one for each pump.',
  remedy: 'Give each pump its own fuse, relay and wire from the battery, and a ground of the same size.',
  source: 'common practice',
  check: ({ values, see, show }) => {
    const pump = values['fuel-system']?.pump;
    const count = pump?.quantity ?? 1;
    if (!pump || count < 2 || !values.electrical?.['pump-circuit']?.shared) return undefined;
    if (pump.arrangement === 'single') return undefined;
    const isSpare = pump.arrangement === 'spare';
    const current = see(pumpCircuit.amps);
    const together = current ? ` and ${show(current)} flow together` : '';
    return {
      at: 'electrical.pump-circuit.shared',
      message: isSpare
        ? 'The spare pump hangs on the circuit of the pump it stands in for, so one blown fuse or bad relay stops both.'
        : `${count} pumps hang on one circuit${together}, so one blown fuse stops them all.`,
      related: [{ at: 'fuel-system.pump.quantity', message: `${count} pumps.` }],
      repairs: [
        {
          title: 'Give each pump its own fuse, relay and wire',
          set: { 'electrical.pump-circuit.shared': false },
          ...(!isSpare && { shows: pumpCircuit.voltage }),
        },
      ],
    };
  },
};
