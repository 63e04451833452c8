import { chargingBalance } from '../engineering/wiring.ts';
import { computerLoad, fanAtIdle, fanLoad, liftPumpCurrent, otherLoad, pumpsCurrent } from './loads.ts';
import { field, figure, given } from './node.ts';

export const chargingVoltage = field('electrical.charging-voltage', 'U_0', {
  value: 13.8,
  because: 'common practice',
});

const chargingCurrent = field('electrical.charging-current', 'I_0');

export const chargingReserve = figure({
  id: 'charging-reserve',
  symbol: 'I_r',
  name: 'what the alternator has left at full load',
  dimension: 'current',
  formula: 'I_0 - n_p I_1 - I_lift - I_fan - I_v - I_c',
  source: 'current balance; every pump that runs at full load counts, also on a circuit of its own',
  home: ['electrical'],
  from: { chargingCurrent, pumpsCurrent, liftPumpCurrent, fanLoad, otherLoad, computerLoad },
  compute: ({ chargingCurrent, pumpsCurrent, liftPumpCurrent, fanLoad, otherLoad, computerLoad }) =>
    chargingBalance(chargingCurrent, [pumpsCurrent, liftPumpCurrent, fanLoad, otherLoad, computerLoad]).reserve,
});

const idleCurrent = field('electrical.idle-current', 'I_0,i');

export const idleChargingReserve = figure({
  id: 'idle-charging-reserve',
  symbol: 'I_r,i',
  name: 'what the alternator has left at hot idle',
  dimension: 'current',
  formula: 'I_0,i - n_p I_1 - I_lift - I_fan - I_v - I_c',
  source: 'current balance; every pump counts, and an electric fan at its full current',
  home: ['electrical.idle-current'],
  when: given('electrical.idle-current'),
  from: { idleCurrent, pumpsCurrent, liftPumpCurrent, fanAtIdle, otherLoad, computerLoad },
  compute: ({ idleCurrent, ...loads }) => chargingBalance(idleCurrent, Object.values(loads)).reserve,
});
