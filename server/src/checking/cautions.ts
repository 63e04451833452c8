import type { Rule } from './rule.ts';

/** What can hurt someone during the work a rule speaks of, in the words of its page. */
export const cautions = {
  'fuel-pressure':
    'Fuel stays under pressure after the pump has stopped. Let the pressure off before you open a line: engine cold, battery disconnected, eyes covered, an extinguisher in reach. Look for leaks with a lamp, never with a hand; a jet of fuel goes through skin.',
  'used-tank':
    'A tank that has held fuel explodes from one spark, also when it seems empty. Do not drill, grind, cut or weld it before it has been emptied, cleaned and purged and a gas meter shows no vapor; that is work for a shop equipped for it (AWS F4.1; 29 CFR 1910.252). A new tank or a drop-in module needs no hot work.',
  welding:
    'Before anyone welds on the car: battery and computer disconnected, the sensor out of its bung, the clamp right beside the weld, fuel and its vapor far away. Welding current through the harness destroys the computer.',
  'high-voltage':
    'The secondary side of an ignition carries tens of kilovolts, the primary wires of a capacitive-discharge box hundreds of volts, some time after the key is off too. Switch off, wait, and keep hands and wires away while the engine turns.',
  battery:
    'A short across a battery melts tools and sets a harness on fire. Disconnect the negative cable first and connect it last; cover the eyes near a battery that was charged.',
  'running-engine':
    'Exhaust gas kills: run the engine outside or with the exhaust led out of the shop. Keep hands, hair and clothes away from belts, fan and anything hot.',
  brakes:
    'A car that does not stop kills. Work on brakes is for a licensed shop; try them in an empty yard at walking speed, wheels chocked while the engine runs in gear, before the car goes on a road.',
  knock:
    'Knock breaks an engine in seconds and is seldom heard in time. Start with little timing and little boost, and have full load set by someone with experience, on a dyno where you can.',
  nitrous:
    'Nitrous oxide is stored under hundreds of psi, freezes skin, takes the air out of a closed room and feeds any fire. Keep to the instructions of its maker; never heat a bottle with a flame, and never let nitrous flow without its fuel.',
  alcohol:
    'Methanol is poisonous, through the skin too, and its flame is hard to see in daylight. Strong alcohol blends eat hoses, seals and tanks that were made for gasoline.',
} as const;

export type Caution = keyof typeof cautions;

const byArea: Record<string, readonly Caution[]> = {
  engine: ['running-engine', 'knock'],
  'throttle-body': ['fuel-pressure', 'running-engine'],
  vacuum: ['running-engine'],
  ignition: ['high-voltage', 'running-engine'],
  'fuel-supply': ['fuel-pressure'],
  electrical: ['battery', 'fuel-pressure'],
  measured: ['fuel-pressure', 'running-engine', 'knock'],
};

/** The cautions for the work a rule speaks of: its own before those of its area. */
export function cautionsOf({ id, cautions: own = [] }: Pick<Rule, 'id' | 'cautions'>): string[] {
  const area = byArea[id.split('/')[0] ?? ''] ?? [];
  return [...new Set([...own, ...area])].map((caution) => cautions[caution]);
}
