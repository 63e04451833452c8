import { type Load, liftPumpCircuit, pumpCircuit } from '../../analysis/circuits.ts';
import { pump as pumpCurves, RATED_VOLTAGE } from '../../analysis/fuel-network.ts';
import { liftPumpDelivery } from '../../analysis/lift-pump.ts';
import { hasLiftPump } from '../../analysis/loads.ts';
import { pumpDelivery } from '../../analysis/supply.ts';
import type { Address, Draft, Repair, Situation, StageRule } from '../../checking/rule.ts';
import { below } from '../../checking/rule.ts';
import { trustedVoltageShare } from '../../engineering/pump.ts';
import { type Circuit, circuitsOf, thickerWire } from '../../remedies/circuits.ts';
import { isTwelveVolt } from '../../remedies/twelve-volt.ts';

export const rule: StageRule = {
  id: 'electrical/pump-voltage-untrusted',
  title: 'Too few volts for the pump to be judged',
  severity: 'error',
  capacity: true,
  why: 'Far below the voltage of its curve a pump does not simply give less: it may stall against the pressure, and nobody can say what it delivers. At full power that is a lean engine, so delivery and rail pressure are not worked out until the volts are there.',
  inspect:
    'Meter at the terminals of the pump, running at working pressure, warm idle, lights and fan on. Read the voltage in the flow sheet of the pump.',
  remedy:
    'Bring the volts to the pump: wire, relay, ground, charging. Or ask the maker for the curve at the voltage that arrives, or fit a pump made for this system.',
  source: 'common practice: below 85 % of the voltage of its curve a pump is not judged',
  cautions: ['knock'],
  check: (situation) => {
    const { values, see, know } = situation;
    const charging = values.electrical?.['charging-voltage'];
    if (charging && !isTwelveVolt(charging.value)) return undefined;
    const lowest = know(pumpCurves)?.curves[0]?.voltage;
    const drafts = lowest === undefined ? [] : untrusted(situation, 'pump', lowest, see(pumpCircuit.voltage));
    const lift = values['fuel-system']?.['lift-pump'];
    if (!know(hasLiftPump) || !lift?.flow) return drafts;
    const rated = lift['rated-voltage']?.value ?? RATED_VOLTAGE;
    return [...drafts, ...untrusted(situation, 'lift-pump', rated, see(liftPumpCircuit.voltage))];
  },
};

function untrusted(
  situation: Situation,
  load: Exclude<Load, 'fan'>,
  lowest: number,
  voltage: ReturnType<Situation['see']>,
): Draft[] {
  const miss = below(voltage, trustedVoltageShare.value * lowest);
  if (!voltage || !miss) return [];
  const { compare, values, impossible } = situation;
  impossible(load === 'pump' ? pumpDelivery : liftPumpDelivery);
  const part = `fuel-system.${load}` as const;
  const isStated = values['fuel-system']?.[load]?.['rated-voltage'] !== undefined;
  const at: Address = isStated ? `${part}.rated-voltage` : part;
  const noun = load === 'pump' ? 'pump' : 'lift pump';
  const shown = compare(voltage, lowest);
  const share = Math.floor((100 * voltage.value) / lowest);
  const circuit = circuitsOf(situation).find(({ path }) => path === `electrical.${load}-circuit`);
  return [
    {
      at,
      message: `Only ${shown.value} reach the ${noun}, ${share} % of the ${shown.limit} its flow was measured at: nobody knows what it delivers.`,
      related: circuit ? [{ at: circuit.path, message: 'What the circuit loses.' }] : [],
      ...miss,
      repairs: circuit ? moreVolts(circuit, situation) : [],
    },
  ];
}

/** A thicker wire, where the wire loses more than its limit. */
function moreVolts(circuit: Circuit, situation: Situation): Repair[] {
  const { figures, path, noun } = circuit;
  const share = situation.see(figures.dropShare);
  if (!share || share.value <= situation.limit('voltage-drop')) return [];
  const wire = thickerWire(circuit, situation, situation.see(figures.fuseNeeded)?.value ?? 0);
  return wire
    ? [{ title: `Run ${wire} wire to the ${noun}`, set: { [`${path}.wire`]: wire }, shows: figures.voltage }]
    : [];
}
