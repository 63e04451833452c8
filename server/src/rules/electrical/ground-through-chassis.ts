import { pumpCircuit } from '../../analysis/circuits.ts';
import type { StageRule } from '../../checking/rule.ts';
import { chassisAllowance } from '../../engineering/wiring.ts';

/** Current, A, from which a way back through seams and bolts is worth a measurement. Common practice, no source. */
const WORTH_MEASURING = 10;

export const rule: StageRule = {
  id: 'electrical/ground-through-chassis',
  title: 'A strong pump grounded through the chassis',
  severity: 'information',
  why: 'Seams, bolts, paint and rust carry the way back, and nobody sees them age; fiberglass and rubber-mounted bodies carry nothing at all. Measure the drop under load from the pump to the negative post, or run a wire.',
  inspect:
    'Pump running at working pressure: meter from the case or the negative terminal of the pump to the negative post of the battery. More than a tenth or two of a volt is worth a wire.',
  remedy:
    'Run a ground wire of the same size to the battery. On fiberglass and rubber-mounted bodies there is no other way.',
  source: 'common practice',
  check: ({ values, see, show, showValue }) => {
    const circuit = values.electrical?.['pump-circuit'];
    const current = see(pumpCircuit.amps);
    if (circuit?.ground !== 'chassis' || circuit.connectors || !current || current.value < WORTH_MEASURING)
      return undefined;
    return {
      at: 'electrical.pump-circuit.ground',
      message: `${show(current)} of the pump go back through the chassis, and the ${showValue(chassisAllowance.value, 'voltage')} taken for that way is only assumed.`,
      related: [{ at: 'fuel-system.pump.current', message: 'Current of one pump.' }],
      repairs: [
        {
          title: 'Run a ground wire of the same size to the battery',
          set: { 'electrical.pump-circuit.ground': 'wire-to-battery' },
        },
      ],
    };
  },
};
