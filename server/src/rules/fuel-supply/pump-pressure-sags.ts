import { railPressureSet } from '../../analysis/regulator.ts';
import {
  pumpDelivery,
  pumpDeliveryAlone,
  pumpMargin,
  pumpPressure,
  railPressure,
  requiredDelivery,
} from '../../analysis/supply.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { largerPump } from '../../remedies/larger-pump.ts';
import { railSags, wayTooNarrow } from '../../remedies/rail-sag.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Loss of a filter of the next larger size, against the present one. Common practice, from memory. */
const LARGER_FILTER = 0.4;

export const rule: StageRule = {
  id: 'fuel-supply/pump-pressure-sags',
  title: 'Line and filter eat up the pressure on the way to the throttle body',
  severity: 'error',
  capacity: true,
  why: 'The pump is large enough, but what the line and the filter lose comes on top of the set pressure, and there the pump gives less than the engine burns. The rail pressure then falls at full power and the mixture turns lean without any warning light.',
  inspect: 'Gauge at the pump and gauge at the rail, full load: the difference is what the way between them costs.',
  remedy: 'A wider feed line, fittings included, or a larger filter; then the pump you have will do.',
  source: 'pressure balance; Darcy-Weisbach with Colebrook (1939); pump curve',
  cautions: ['knock'],
  check: (situation) => {
    const { see, show, showValue } = situation;
    const narrow = wayTooNarrow(situation);
    const margin = see(pumpMargin);
    if (!narrow || !margin) return undefined;
    const name = narrow.part === 'feed' ? 'feed line' : 'fine filter';
    const left = railSags(situation)
      ? `, and ${show(see(railPressure))} of ${show(see(railPressureSet))} is left at the injectors`
      : `, and the pump gives ${show(see(pumpDelivery))} against it`;
    return {
      at: narrow.part === 'feed' ? 'fuel-system.feed.inside-diameter' : 'fuel-system.filter.loss',
      message: `At full power the ${name} takes ${showValue(narrow.loss, 'pressure')}${left}. Without losses the pump would give ${show(see(pumpDeliveryAlone))}, enough for the ${show(see(requiredDelivery))} needed with the reserve.`,
      related: [
        { at: 'fuel-system.pump', message: 'The pump itself is large enough.' },
        { at: 'stages.power', message: 'The power of this stage asks for the flow.' },
      ],
      excess: -margin.value,
      repairs: [...wider(situation), ...largerFilter(situation), ...pump(situation)],
    };
  },
};

function wider({ values }: Situation): Repair[] {
  const bore = values['fuel-system']?.feed?.['inside-diameter'];
  if (!bore) return [];
  return boresAbove(bore)
    .slice(0, 2)
    .map((next) => ({
      title: `Run a feed line of ${next}`,
      set: { 'fuel-system.feed.inside-diameter': next },
      shows: pumpMargin,
    }));
}

function largerFilter({ values, show }: Situation): Repair[] {
  const filter = values['fuel-system']?.filter;
  if (!filter?.loss || !filter['loss-at']) return [];
  const loss = roundedDown(filter.loss.value * LARGER_FILTER, filter.loss);
  return [
    {
      title: `Fit a larger filter that loses ${loss} at ${show(filter['loss-at'])}`,
      set: { 'fuel-system.filter.loss': loss },
      shows: pumpMargin,
    },
  ];
}

function pump(situation: Situation): Repair[] {
  const [required, pressure] = [situation.see(requiredDelivery), situation.see(pumpPressure)];
  return required && pressure ? largerPump(situation, { delivery: required, pressure: pressure.value }) : [];
}
