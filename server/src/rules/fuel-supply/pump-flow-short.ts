import type { Figure } from '../../analysis/figure.ts';
import { largerPump } from '../larger-pump.ts';
import { thickerWire } from '../pump-wire.ts';
import { railSags, wayTooNarrow } from '../rail-sag.ts';
import { below, type Repair, type Situation, type StageRule } from '../rule.ts';
import { spareWouldDo } from '../spare-pump.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-flow-short',
  title: 'The pump delivers too little at the real pressure and voltage',
  severity: 'error',
  capacity: true,
  why: 'A pump gives less the harder it is pressed and the fewer volts reach it, so the flow on its box is not the flow in the car. When it falls short the rail pressure drops at full power and the mixture goes lean, where lean burns pistons; the reserve covers wear, a dirty filter and hot fuel.',
  inspect:
    'Rail gauge in sight of the driver, full load in a high gear: the pressure must stand. Then the flow: engine cold and off, outdoors, the return led into a safety can for a minute at working pressure and charging voltage.',
  remedy:
    'Volts first, then the filter and the strainer, then a larger pump or a second one on its own circuit. Do not run full load until it stands.',
  source: 'pressure balance and the pump curve; the reserve of 20 % is common practice',
  cautions: ['knock'],
  check: (situation) => {
    const { figure, limit, show, showValue } = situation;
    const miss = below(figure('pump-margin'), 0);
    const delivery = figure('pump-delivery');
    const required = figure('required-delivery');
    if (!miss || !delivery || !required) return undefined;
    if (wayTooNarrow(situation) || spareWouldDo(situation)) return undefined;
    const reserve = showValue(limit('pump-reserve'), 'ratio');
    const gives =
      delivery.value > 0
        ? `The pump gives ${show(delivery)} at the ${show(figure('pump-pressure'))} it works against and ${show(figure('pump-voltage'))}`
        : `The pump gives nothing at the ${show(figure('pump-pressure'))} it would have to work against`;
    return {
      at: 'fuel-system.pump',
      message: `${gives}; the engine needs ${show(required)} with the reserve of ${reserve}.${sag(situation)}`,
      related: relatedOf(situation),
      ...miss,
      repairs: [...moreVolts(situation), ...secondPump(situation), ...bigger(situation, required)],
    };
  },
};

/** Rail pressure, Pa, that is as good as none: it opens no injector. */
const COLLAPSED = 10e3;

function sag(situation: Situation): string {
  const { figure, show } = situation;
  if (!railSags(situation)) return '';
  if ((figure('rail-pressure')?.value ?? 0) < COLLAPSED)
    return ' That is less than it burns, so the rail pressure collapses.';
  return ` At full power only ${show(figure('rail-pressure'))} of ${show(figure('rail-pressure-set'))} is left at the injectors.`;
}

function relatedOf({ values }: Situation) {
  return [
    { at: 'stage.power', message: 'The power of this stage asks for the flow.', there: true },
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
  ]
    .filter(({ there }) => there)
    .map(({ at, message }) => ({ at, message }));
}

/** A thicker wire, where the circuit loses more than its limit. */
function moreVolts(situation: Situation): Repair[] {
  const { figure, limit } = situation;
  const lost = figure('pump-circuit-drop-share');
  const fuse = figure('fuse-needed');
  if (!lost || !fuse || lost.value <= limit('voltage-drop')) return [];
  const wire = thickerWire(situation, fuse.value);
  if (!wire) return [];
  return [{ title: `Wire the pump with ${wire}`, set: { 'electrical.pump-circuit.wire': wire }, shows: 'pump-margin' }];
}

function secondPump({ values }: Situation): Repair[] {
  const count = values['fuel-system']?.pump?.quantity ?? 1;
  if (count > 1) return [];
  const isShared = values.electrical?.['pump-circuit']?.shared;
  return [
    {
      title: 'Add a second pump in parallel, on a circuit of its own',
      set: {
        'fuel-system.pump.quantity': count + 1,
        'fuel-system.pump.arrangement': 'parallel',
        ...(isShared && { 'electrical.pump-circuit.shared': false }),
      },
      shows: 'pump-margin',
    },
  ];
}

function bigger(situation: Situation, delivery: Figure): Repair[] {
  const pressure = situation.figure('pump-pressure');
  return pressure ? largerPump(situation, { delivery, pressure: pressure.value }) : [];
}
