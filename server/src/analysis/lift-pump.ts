import { flowAtVoltage } from '../engineering/pump.ts';
import { liftPumpCircuit } from './circuits.ts';
import { RATED_VOLTAGE } from './fuel-network.ts';
import { hasLiftPump } from './loads.ts';
import { field, figure } from './node.ts';
import { requiredDelivery } from './supply.ts';

const HOME = ['fuel-system.lift-pump'] as const;

const liftFlow = field('fuel-system.lift-pump.flow', 'Q_lift');
const liftRated = field('fuel-system.lift-pump.rated-voltage', 'U_rated', {
  value: RATED_VOLTAGE,
  because: 'common practice',
});

export const liftPumpDelivery = figure({
  id: 'lift-pump-delivery',
  symbol: 'Q_lift,U',
  name: 'delivery of the lift pump at the voltage it gets',
  dimension: 'volume-flow',
  formula: 'Q_lift * U_p / U_rated',
  source: 'common practice: flow in proportion to voltage, an estimate',
  home: HOME,
  when: hasLiftPump,
  from: { liftFlow, liftRated, volts: liftPumpCircuit.voltage },
  compute: ({ liftFlow, liftRated, volts }) => flowAtVoltage(liftFlow, liftRated, volts),
});

export const liftPumpMargin = figure({
  id: 'lift-pump-margin',
  symbol: 'margin_lift',
  name: 'lift pump flow to spare, after reserve',
  dimension: 'ratio',
  formula: 'Q_lift,U / Q_req - 1',
  source: 'continuity: what the engine burns out of the surge tank must come in; the reserve is common practice',
  home: HOME,
  when: hasLiftPump,
  from: { liftPumpDelivery, requiredDelivery },
  compute: ({ liftPumpDelivery, requiredDelivery }) => liftPumpDelivery / requiredDelivery - 1,
});
