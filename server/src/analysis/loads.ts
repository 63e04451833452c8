import { choice, choose, constant, fact, field, given, optional } from './node.ts';

const onePump = field('fuel-system.pump.current', 'I_1');
export const pumpQuantity = field('fuel-system.pump.quantity', 'n_p', { value: 1, because: 'one pump' });
export const pumpArrangement = choice<
  'single' | 'parallel' | 'staged' | 'spare',
  { pumpQuantity: typeof pumpQuantity }
>('fuel-system.pump.arrangement', 'arrangement', {
  from: { pumpQuantity },
  compute: (values) => (values.pumpQuantity > 1 ? 'parallel' : 'single'),
  because: 'usual for that number of pumps',
});

/** Whether several pumps run at full load: parallel or staged ones, never a spare. */
const runTogether = fact({
  id: 'pumps-run-together',
  from: { pumpQuantity, pumpArrangement },
  compute: ({ pumpQuantity, pumpArrangement }) =>
    pumpQuantity > 1 && (pumpArrangement === 'parallel' || pumpArrangement === 'staged'),
});

const allPumps = fact({
  id: 'current-of-all-pumps',
  from: { onePump, pumpQuantity },
  compute: ({ onePump, pumpQuantity }) => onePump * pumpQuantity,
});

/** Current of the pumps that run at full load, A. */
export const pumpsCurrent = choose({
  id: 'current-of-the-pumps',
  from: { runTogether },
  among: ({ runTogether }) => (runTogether ? allPumps : onePump),
});

const isShared = choice<boolean>('electrical.pump-circuit.shared', 'shared');

const perCircuit = choose({
  id: 'current-per-circuit',
  from: { isShared },
  among: ({ isShared }) => (isShared ? allPumps : onePump),
});

/** Current of the pumps on one circuit, A; whether several share it is asked, not assumed. */
export const pumpCircuitLoad = choose({
  id: 'load-of-the-pump-circuit',
  from: { runTogether },
  among: ({ runTogether }) => (runTogether ? perCircuit : onePump),
});

const fedBy = optional(choice<string>('fuel-system.pump.fed-by', 'fed by'));

/** Whether a lift pump keeps a surge tank full. */
export const hasLiftPump = fact({
  id: 'has-lift-pump',
  from: { isGiven: given('fuel-system.lift-pump'), fedBy },
  compute: ({ isGiven, fedBy }) => isGiven || fedBy === 'lift-pump',
});

const noLiftPump = constant({
  symbol: 'I_lift',
  name: 'current of the lift pump',
  value: 0,
  dimension: 'current',
  assumed: 'no lift pump',
});

export const liftPumpLoad = field('fuel-system.lift-pump.current', 'I_lift');

/** Current of the lift pump, A, none where there is none. */
export const liftPumpCurrent = choose({
  id: 'current-of-the-lift-pump',
  from: { hasLiftPump },
  among: ({ hasLiftPump }) => (hasLiftPump ? liftPumpLoad : noLiftPump),
});

/** Whether an electric fan is on the sheet. */
export const hasFan = fact({
  id: 'has-fan',
  from: { isGiven: given('electrical.fan-load'), hasCircuit: given('electrical.fan-circuit') },
  compute: ({ isGiven, hasCircuit }) => isGiven || hasCircuit,
});

export const fanLoad = field('electrical.fan-load', 'I_fan', { value: 0, because: 'a belt drives the fan' });
export const statedFanLoad = field('electrical.fan-load', 'I_fan');

const coolingFan = choice<string>('electrical.cooling-fan', 'fan');

const beltFan = constant({
  symbol: 'I_fan',
  name: 'current of the fan',
  value: 0,
  dimension: 'current',
  assumed: 'a belt drives the fan',
});

/** Current of the fan at hot idle, A, none where a belt drives it. */
export const fanAtIdle = choose({
  id: 'current-of-the-fan-at-idle',
  from: { coolingFan },
  among: ({ coolingFan }) => (coolingFan === 'electric' ? statedFanLoad : beltFan),
});

export const otherLoad = field('electrical.other-load', 'I_v', {
  value: 30,
  because: 'common practice: lights, blower, ignition off the computer',
});
export const computerLoad = field('electrical.computer-load', 'I_c', { value: 15, because: 'common practice' });
