import { coilCurrentAtRedline, dwellAvailable, voltageAtCoil } from '../analysis/ignition.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import { lastingHeat, steadyHeat, usefulEnergy } from '../engineering/coil.ts';
import { coilCurrent, storedEnergy } from '../engineering/ignition.ts';

/** A coil for an electronic driver: ohm, H, A. */
type CoilSize = { resistance: number; inductance: number; current: number };

/** Usual coils for electronic drivers, from slow to fast. Common practice, from memory. */
const USUAL: readonly CoilSize[] = [
  { resistance: 0.6, inductance: 4e-3, current: 5 },
  { resistance: 0.5, inductance: 3e-3, current: 6 },
  { resistance: 0.4, inductance: 2.2e-3, current: 7 },
  { resistance: 0.35, inductance: 1.5e-3, current: 8 },
];

/** Room that the current reached should leave over the working current. Common practice. */
const ROOM = 1.1;

/** The slowest usual coil that reaches its current at redline with room, and stores a sure spark. */
export function usualCoil({ see, know }: Pick<Situation, 'see' | 'know'>): Repair[] {
  const [dwell, voltage] = [see(dwellAvailable), know(voltageAtCoil)];
  if (!dwell || voltage === undefined) return [];
  const coil = USUAL.find(
    (one) =>
      coilCurrent(voltage, one, dwell.value) >= one.current * ROOM &&
      storedEnergy(one.inductance, one.current) >= usefulEnergy.value,
  );
  if (!coil) return [];
  const [ohms, henry, amps] = [
    `${coil.resistance} ohm`,
    `${Number((coil.inductance * 1e3).toPrecision(3))} mH`,
    `${coil.current} A`,
  ];
  return [
    {
      title: `Fit a coil for an electronic driver, such as ${ohms}, ${henry} and ${amps}`,
      set: {
        'ignition.coil.resistance': ohms,
        'ignition.coil.inductance': henry,
        'ignition.coil.working-current': amps,
        'ignition.coil.made-for': 'inductive',
      },
      shows: coilCurrentAtRedline,
    },
  ];
}

/** A coil for every two cylinders, where one or a few serve all: each then has the longer to charge. */
export function moreCoils({ values: { ignition, engine } }: Pick<Situation, 'values'>): Repair[] {
  const cylinders = engine?.cylinders ?? 0;
  const isTimedFree = ignition?.timing === 'computer' && ignition.trigger === 'crank-sensor';
  if (!isTimedFree || cylinders % 2 !== 0 || (ignition.coil?.quantity ?? 1) >= cylinders / 2) return [];
  return [
    {
      title: `Fit ${cylinders / 2} coils, one for every two cylinders`,
      set: { 'ignition.coil.quantity': cylinders / 2 },
      shows: coilCurrentAtRedline,
    },
  ];
}

/** Whether the coil bears full voltage: something limits its current, or its own resistance does. */
export function bearsFullVoltage({ values: { ignition }, know }: Pick<Situation, 'values' | 'know'>): boolean {
  const resistance = ignition?.coil?.resistance?.value;
  const voltage = know(voltageAtCoil);
  if (ignition?.['current-limiting'] || resistance === undefined || voltage === undefined) return true;
  return steadyHeat(voltage, resistance).coil <= lastingHeat.value;
}
