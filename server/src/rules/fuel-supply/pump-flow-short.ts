import { pumpCircuit } from '../../analysis/circuits.ts';
import type { Estimate } from '../../analysis/figure.ts';
import { railPressureSet } from '../../analysis/regulator.ts';
import { pumpDelivery, pumpMargin, pumpPressure, railPressure, requiredDelivery } from '../../analysis/supply.ts';
import { below, type Related, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { circuitsOf, thickerWire } from '../../remedies/circuits.ts';
import { largerPump } from '../../remedies/larger-pump.ts';
import { railSags, wayTooNarrow } from '../../remedies/rail-sag.ts';
import { settingFarOver } from '../../remedies/regulator-setting.ts';
import { spareWouldDo } from '../../remedies/spare-pump.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-flow-short',
  title: 'The pump delivers too little at the real pressure and voltage',
  severity: 'error',
  capacity: true,
  why: 'A pump gives less the harder it is pressed and the fewer volts reach it, so the flow on its box is not the flow in the car. When it falls short the rail pressure drops at full power and the mixture goes lean, where lean burns pistons; the reserve covers wear, a dirty filter and hot fuel.',
  inspect:
    'Rail gauge in sight of the driver, full load in a high gear: the pressure must hold. Then the flow: engine cold and off, outdoors, the return led into a safety can for a minute at working pressure and charging voltage.',
  remedy:
    'Volts first, then the filter and the strainer, then a larger pump or a second one on its own circuit. Do not run full load until it holds.',
  source: 'pressure balance and the pump curve; the reserve of 20 % is common practice',
  cautions: ['knock'],
  check: (situation) => {
    const { see, limit, show, showValue, compare } = situation;
    const miss = below(see(pumpMargin), 0);
    const delivery = see(pumpDelivery);
    const required = see(requiredDelivery);
    if (!miss || !delivery || !required) return undefined;
    if (wayTooNarrow(situation) || spareWouldDo(situation)) return undefined;
    const reserve = showValue(limit('pump-reserve'), 'ratio');
    const shown = compare(delivery, required.value);
    const gives =
      delivery.value > 0
        ? `The pump gives ${shown.value} at the ${show(see(pumpPressure))} it works against and ${show(see(pumpCircuit.voltage))}`
        : `The pump gives nothing at the ${show(see(pumpPressure))} it would have to work against`;
    return {
      at: 'fuel-system.pump',
      message: `${gives}; the engine needs ${shown.limit} with the reserve of ${reserve}.${sag(situation)}`,
      related: relatedOf(situation),
      ...miss,
      repairs: [
        ...lowerSetting(situation),
        ...moreVolts(situation),
        ...bigger(situation, required),
        ...secondPump(situation),
      ],
    };
  },
};

/** Rail pressure, Pa, that is as good as none: it opens no injector. */
const COLLAPSED = 10e3;

function sag(situation: Situation): string {
  const { see, show } = situation;
  if (!railSags(situation)) return '';
  if ((see(railPressure)?.value ?? 0) < COLLAPSED)
    return ' That is less than it burns, so the rail pressure collapses.';
  return ` At full power only ${show(see(railPressure))} of ${show(see(railPressureSet))} is left at the injectors.`;
}

function relatedOf({ values }: Situation): Related[] {
  const places: (Related & { there: unknown })[] = [
    { at: 'stages.power', message: 'The power of this stage asks for the flow.', there: true },
    {
      at: 'fuel-system.regulator.pressure',
      message: 'The pressure the pump has to hold.',
      there: values['fuel-system']?.regulator,
    },
    {
      at: 'electrical.pump-circuit',
      message: 'What reaches the pump of the voltage.',
      there: values.electrical?.['pump-circuit'],
    },
  ];
  return places.filter(({ there }) => there).map(({ at, message }) => ({ at, message }));
}

/** The injectors' rated pressure, where the regulator is set far over it: the cause, and not the pump. */
function lowerSetting({ values }: Situation): Repair[] {
  const setting = settingFarOver(values);
  if (!setting) return [];
  return [
    {
      title: `Set the regulator to ${setting.text}, the rated pressure of the injectors`,
      set: { 'fuel-system.regulator.pressure': setting.text },
      shows: pumpMargin,
    },
  ];
}

/** A thicker wire, where the circuit loses more than its limit. */
function moreVolts(situation: Situation): Repair[] {
  const { see, limit } = situation;
  const circuit = circuitsOf(situation).find(({ path }) => path === 'electrical.pump-circuit');
  const lost = see(pumpCircuit.dropShare);
  const fuse = see(pumpCircuit.fuseNeeded);
  if (!circuit || !lost || !fuse || lost.value <= limit('voltage-drop')) return [];
  const wire = thickerWire(circuit, situation, fuse.value);
  if (!wire) return [];
  return [{ title: `Wire the pump with ${wire}`, set: { 'electrical.pump-circuit.wire': wire }, shows: pumpMargin }];
}

function secondPump({ values }: Situation): Repair[] {
  const count = values['fuel-system']?.pump?.quantity ?? 1;
  if (count > 1) return [];
  const hasCircuit = values.electrical?.['pump-circuit'] !== undefined;
  return [
    {
      title: 'Add a second pump in parallel, on a circuit of its own',
      set: {
        'fuel-system.pump.quantity': count + 1,
        'fuel-system.pump.arrangement': 'parallel',
        ...(hasCircuit && { 'electrical.pump-circuit.shared': false }),
      },
      shows: pumpMargin,
    },
  ];
}

function bigger(situation: Situation, delivery: Estimate): Repair[] {
  const pressure = situation.see(pumpPressure);
  return pressure ? largerPump(situation, { delivery, pressure: pressure.value }) : [];
}
