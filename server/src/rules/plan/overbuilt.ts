import {
  dutyAtPeakPower,
  injectorFlow,
  injectorPressure,
  requiredStaticFlow,
} from '../../analysis/full-load-injection.ts';
import { idlePulseMargin } from '../../analysis/idle-injection.ts';
import { pumpDelivery, requiredDelivery } from '../../analysis/supply.ts';
import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';
import { isBodyOversized, passesTooMuchAir, ratingSurplus, ratioOf, surplus } from '../../remedies/oversize.ts';
import { coarselyUp } from '../../remedies/size.ts';
import { timesCovered } from '../../remedies/times-covered.ts';

/** Delivery, m3/s, of the smallest pumps sold for injection pressure: 120 L/h. Common practice, from memory. */
const SMALLEST_PUMP = 120e-3 / 3600;
/** Reserve of the smaller part that is proposed: a third over the need. Common practice. */
const RESERVE = 1.33;

export const rule: StageRule = {
  id: 'plan/overbuilt',
  title: 'Part far larger than any stage needs',
  severity: 'information',
  why: 'What no stage of the plan uses is paid for and carried along: oversized injectors idle worse, an oversized pump heats the fuel and loads the wiring. A stage that is missing from the plan may be the reason; then write it down.',
  inspect: 'Check that the largest stage of the plan is written down.',
  remedy: 'Write the missing stage down, choose a smaller part, or keep it on purpose and say so under `silence`.',
  source: 'common practice: two and a half times the need of the hungriest stage',
  check: (situation) => [...injectors(situation), ...pump(situation), ...throttleBody(situation)],
};

function injectors(situation: Situation): Draft[] {
  const { see, values, show } = situation;
  const idle = see(idlePulseMargin);
  if ((idle && idle.value < 1) || timesCovered(situation) || isBodyOversized(situation)) return [];
  const path = 'throttle-body.injectors.static-flow';
  const times = surplus(situation, path, ratioOf(injectorFlow, requiredStaticFlow));
  const flow = values['throttle-body']?.injectors?.['static-flow'];
  if (!times || !flow) return [];
  return [
    {
      at: path,
      message: `The injectors flow ${show(see(injectorFlow))} at ${show(see(injectorPressure))}, ${times.toFixed(1)} times the ${show(see(requiredStaticFlow))} that the hungriest stage needs of each.`,
      related: [{ at: 'stages.power', message: 'The hungriest stage.' }],
      excess: -times,
      repairs: fittingInjectors(situation, dutyAtPeakPower),
    },
  ];
}

function pump(situation: Situation): Draft[] {
  const { see, show } = situation;
  const path = 'fuel-system.pump.flow-at';
  const times = surplus(situation, path, ratioOf(pumpDelivery, requiredDelivery));
  const delivery = see(pumpDelivery);
  if (!times || !delivery || delivery.value <= SMALLEST_PUMP) return [];
  return [
    {
      at: path,
      message: `The pump delivers ${show(delivery)} at working pressure, ${times.toFixed(1)} times the ${show(see(requiredDelivery))} that the hungriest stage needs with its reserve.`,
      related: [{ at: 'stages.power', message: 'The hungriest stage.' }],
      excess: -times,
    },
  ];
}

function throttleBody(situation: Situation): Draft[] {
  const { values, stage, show } = situation;
  const path = 'throttle-body.power-rating';
  const times = passesTooMuchAir(situation) ? undefined : ratingSurplus(situation);
  const rating = values['throttle-body']?.['power-rating'];
  const bodies = values['throttle-body']?.quantity ?? 1;
  if (!times || !rating) return [];
  const better = coarselyUp((rating.value / times) * RESERVE, rating);
  return [
    {
      at: path,
      message: `${bodies === 1 ? `A throttle body for ${show(rating)} is` : `${bodies} throttle bodies for ${show(rating)} each are`} ${times.toFixed(1)} times what the hungriest stage asks for, ${show(stage.power)}.`,
      related: [{ at: 'stages.power', message: 'The hungriest stage.' }],
      excess: -times,
      repairs: [{ title: `Fit a throttle body rated for ${better}`, set: { [path]: better } }],
    },
  ];
}
