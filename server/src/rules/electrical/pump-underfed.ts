import { pumpCircuit } from '../../analysis/circuits.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { trustedVoltageShare } from '../../engineering/pump.ts';
import { isTwelveVolt } from '../../remedies/twelve-volt.ts';

/** Share of its rated voltage a pump should get for its flow sheet to hold. Common practice, no source. */
const LEAST = 0.9;

export const rule: StageRule = {
  id: 'electrical/pump-underfed',
  title: 'Pump curve was measured at a voltage it never gets',
  severity: 'information',
  why: "Flow sheets are often made at a high voltage. Far below it the pump's flow is only estimated here, and it may fall faster than the voltage does: ask for a curve at the voltage of the car.",
  inspect:
    'Meter at the terminals of the pump, running at working pressure, engine at warm idle with lights and fan on.',
  remedy:
    'Ask the maker for the curve at the voltage of the car and write it under `low-voltage`. If the volts are missing in the wire, mend that first.',
  source: 'common practice',
  check: ({ values, see, limit, compare }) => {
    const pump = values['fuel-system']?.pump;
    const rated = pump?.['rated-voltage'];
    const voltage = see(pumpCircuit.voltage);
    const charging = values.electrical?.['charging-voltage'];
    if (!rated || !voltage || pump['low-voltage'] || voltage.value >= rated.value * LEAST) return undefined;
    if (voltage.value < rated.value * trustedVoltageShare.value) return undefined;
    const isLost = above(see(pumpCircuit.dropShare), limit('voltage-drop')) !== undefined;
    if (isLost || (charging && !isTwelveVolt(charging.value))) return undefined;
    const shown = compare(voltage, rated.value);
    return {
      at: 'fuel-system.pump.rated-voltage',
      message: `The pump's curve was measured at ${shown.limit}, but only ${shown.value} arrives: the flow there is an estimate.`,
      related: charging ? [{ at: 'electrical.charging-voltage', message: 'Voltage at the battery.' }] : [],
    };
  },
};
