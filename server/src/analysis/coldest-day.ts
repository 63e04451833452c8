import { duty, requiredStaticFlow } from '../engineering/injectors.ts';
import { airShareColdest } from './days.ts';
import { demandByPower } from './demand.ts';
import { highestSpeed } from './engine.ts';
import { coldFuelDensity } from './fuel.ts';
import { injectorFlow } from './full-load-injection.ts';
import { deadTime, injection, injectorCount, pulsesPerCycle } from './injectors.ts';
import { injectorDemand, pumpDemand } from './nitrous.ts';
import { constant, figure } from './node.ts';
import { pumpDelivery } from './supply.ts';

const INJECTORS = ['throttle-body.injectors', 'stages'] as const;

const DAY_SOURCE = 'mass balance: the fuel of the engine follows its air, that for nitrous does not' as const;

export const demandColdest = figure({
  id: 'demand-coldest-day',
  symbol: 'm_f,cold',
  name: 'fuel through the injectors on the coldest, lowest day',
  dimension: 'mass-flow',
  formula: 'm_f,inj + m_f (a_cold - 1)',
  source: DAY_SOURCE,
  home: INJECTORS,
  from: { injectorDemand, demandByPower, airShareColdest },
  compute: (v) => v.injectorDemand + v.demandByPower * (v.airShareColdest - 1),
});

export const dutyColdest = figure({
  id: 'duty-coldest-day',
  symbol: 'D_cold',
  name: 'duty cycle on the coldest, lowest day',
  dimension: 'ratio',
  formula: 'm_f,cold / n / m_s + t_d * k * N / 2, k pulses per cycle, at the higher of N_p and N_r',
  source: 'kinematics of the four-stroke cycle',
  home: INJECTORS,
  notes: ['no margin is in it: the duty limit is for the air of the claim'],
  from: { demandColdest, injectorCount, injectorFlow, deadTime, highestSpeed, pulsesPerCycle },
  compute: (v) =>
    duty(v.demandColdest / v.injectorCount, injection(v.injectorFlow, v.deadTime, v.highestSpeed, v.pulsesPerCycle)),
});

/** Share of the time, and of the pump's delivery, up to which the coldest, lowest day may go without a warning. */
export const COLDEST_SHARE = 0.95;

const coldestShare = constant({
  symbol: 'limit',
  name: 'largest duty on the coldest, lowest day',
  value: COLDEST_SHARE,
  dimension: 'ratio',
  assumed: 'common practice: 5 % of the time for opening and closing',
});

export const requiredStaticFlowColdest = figure({
  id: 'required-static-flow-coldest-day',
  symbol: 'm_s,cold',
  name: 'static flow each injector needs on the coldest, lowest day',
  dimension: 'injector-flow',
  formula: 'm_f,cold / n / (limit - t_d * k * N / 2)',
  source: 'kinematics of the four-stroke cycle',
  home: INJECTORS,
  from: { demandColdest, injectorCount, coldestShare, deadTime, highestSpeed, pulsesPerCycle },
  compute: (v) =>
    requiredStaticFlow(v.demandColdest / v.injectorCount, v.coldestShare, {
      deadTime: v.deadTime,
      speed: v.highestSpeed,
      pulsesPerCycle: v.pulsesPerCycle,
    }),
});

export const requiredDeliveryColdest = figure({
  id: 'required-delivery-coldest-day',
  symbol: 'Q_cold',
  name: 'fuel burned by volume on the coldest, lowest day',
  dimension: 'volume-flow',
  formula: '(m_f,pump + m_f (a_cold - 1)) / rho_cold',
  source: DAY_SOURCE,
  home: ['fuel-system.pump'],
  notes: ['fuel as cold as the air'],
  from: { pumpDemand, demandByPower, airShareColdest, coldFuelDensity },
  compute: (v) => (v.pumpDemand + v.demandByPower * (v.airShareColdest - 1)) / v.coldFuelDensity,
});

export const pumpMarginColdest = figure({
  id: 'pump-margin-coldest-day',
  symbol: 'margin_cold',
  name: 'pump flow to spare on the coldest, lowest day',
  dimension: 'ratio',
  formula: 'Q_p / Q_cold - 1',
  source: 'definition',
  home: ['fuel-system.pump'],
  notes: ['no reserve is in it: the reserve is for the air of the claim'],
  from: { pumpDelivery, requiredDeliveryColdest },
  compute: (v) => v.pumpDelivery / v.requiredDeliveryColdest - 1,
});
