import { pumpDelivery, pumpMargin, pumpPressure, requiredDelivery } from '../../analysis/supply.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { largerPump } from '../../remedies/larger-pump.ts';
import { wayTooNarrow } from '../../remedies/rail-sag.ts';
import { spareWouldDo } from '../../remedies/spare-pump.ts';

export const rule: StageRule = {
  id: 'fuel-supply/spare-counted',
  title: 'A spare pump is counted as capacity',
  severity: 'error',
  capacity: true,
  why: 'A spare runs only in place of the first pump, so two pumps with a switch deliver as much as one. If one pump is too small for full power the engine goes lean there, whichever of the two is switched on.',
  inspect: 'See how the pumps are switched: a changeover switch runs one at a time.',
  remedy: 'Let them run together on circuits of their own, with check valves, or fit one pump that does it alone.',
  source: 'common practice; continuity',
  check: (situation) => {
    const { values, see, compare } = situation;
    const count = values['fuel-system']?.pump?.quantity ?? 1;
    const miss = below(see(pumpMargin), 0);
    const [delivery, required] = [see(pumpDelivery), see(requiredDelivery)];
    if (!miss || !delivery || !required || !spareWouldDo(situation) || wayTooNarrow(situation)) return undefined;
    const shown = compare(delivery, required.value);
    const hasCircuit = values.electrical?.['pump-circuit'] !== undefined;
    const pressure = see(pumpPressure)?.value ?? 0;
    return {
      at: 'fuel-system.pump.arrangement',
      message: `A spare adds no flow: one pump gives ${shown.value}, but the engine needs ${shown.limit} with the reserve.`,
      related: [
        { at: 'fuel-system.pump.quantity', message: `${count} pumps, of which one runs.` },
        { at: 'stages.power', message: 'The power of this stage asks for the flow.' },
      ],
      ...miss,
      repairs: [
        {
          title: 'Run the pumps together, each on a circuit of its own',
          set: {
            'fuel-system.pump.arrangement': 'parallel',
            ...(hasCircuit && { 'electrical.pump-circuit.shared': false }),
          },
          shows: pumpMargin,
        },
        {
          title: 'Let the further pumps come in under load',
          set: {
            'fuel-system.pump.arrangement': 'staged',
            ...(hasCircuit && { 'electrical.pump-circuit.shared': false }),
          },
          shows: pumpMargin,
        },
        ...largerPump(situation, { delivery: required, pressure }),
      ],
    };
  },
};
