import { coilChargeTime, coilCurrentAtRedline, dwellAvailable, steadyCoilCurrent } from '../../analysis/ignition.ts';
import { below, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { highestSpeedForDwell } from '../../engineering/ignition.ts';
import type { Coil } from '../../generated/build-sheet.ts';
import { dischargeBox } from '../../remedies/discharge-box.ts';
import { roundedDown } from '../../remedies/size.ts';
import type { Quantity } from '../../units/quantity.ts';

export const rule: StageRule = {
  id: 'ignition/coil-not-saturated',
  title: 'Coil does not reach its working current at redline',
  severity: 'warning',
  capacity: true,
  why: 'The energy of the spark grows with the square of the current the coil has reached when the spark comes. A coil that has no time to charge misfires at high speed and full load, and the unburned mixture also misleads the oxygen sensor.',
  inspect: 'Current clamp and scope on the coil wire at high speed: the ramp must reach its top before the spark.',
  remedy:
    'A coil of less inductance, a capacitive-discharge box, one coil for each pair of cylinders, or a lower redline.',
  source: 'series RL circuit; spark duration common practice, from memory',
  check: (situation) => {
    const { see, show, values } = situation;
    const coil = values.ignition?.coil;
    const redline = values.engine?.redline;
    if (!isMeasured(coil) || !isChargedByBattery(situation)) return undefined;
    const wanted = coil['working-current'];
    const reached = see(coilCurrentAtRedline);
    const miss = below(reached, wanted.value);
    if (!miss) return undefined;
    return {
      at: 'ignition.coil.working-current',
      message: `At ${show(redline)} the coil has ${show(see(dwellAvailable))} to charge and reaches ${show(reached)} of its ${show(wanted)}.`,
      related: [{ at: 'engine.redline', message: 'The speed it has to charge at.' }],
      ...miss,
      repairs: [
        ...fasterCoil(situation, coil),
        ...capacitiveDischarge(situation),
        ...(redline ? lowerRedline(situation, redline) : []),
      ],
    };
  },
};

type Measured = Coil & Required<Pick<Coil, 'resistance' | 'inductance' | 'working-current'>>;

function isMeasured(coil: Coil | undefined): coil is Measured {
  return Boolean(coil?.resistance && coil.inductance && coil['working-current']);
}

/** Neither behind a box, nor short of voltage by a ballast: those are told by rules of their own. */
function isChargedByBattery({ values: { ignition } }: Situation): boolean {
  const { driver, supply, coil } = ignition ?? {};
  if (driver === 'capacitive-discharge' || coil?.['made-for'] === 'capacitive-discharge') return false;
  return (supply === undefined || supply === 'full-voltage') && !coil?.ballast?.value;
}

/** Final current over working current of a coil to choose where the present one never gets there. Common practice, from memory. */
const HEADROOM = 1.5;

/** A coil with the inductance that just lets the current rise in time, and less resistance where that alone holds it down. */
function fasterCoil(
  { see }: Situation,
  { resistance, inductance, 'working-current': { value: current } }: Measured,
): Repair[] {
  const dwell = see(dwellAvailable)?.value ?? 0;
  if (dwell === 0) return [];
  const settled = see(steadyCoilCurrent)?.value ?? 0;
  const voltage = settled * resistance.value;
  const isHeldDown = settled <= current;
  const ohms = isHeldDown ? voltage / (HEADROOM * current) : resistance.value;
  const size = roundedDown((-dwell * ohms) / Math.log1p((-current * ohms) / voltage), inductance);
  const less = roundedDown(ohms, resistance);
  return [
    {
      title: `Fit a coil of ${isHeldDown ? `${less} and ` : ''}${size}`,
      set: { ...(isHeldDown ? { 'ignition.coil.resistance': less } : {}), 'ignition.coil.inductance': size },
      shows: coilCurrentAtRedline,
    },
  ];
}

function capacitiveDischarge({ values: { ignition } }: Situation): Repair[] {
  if (ignition?.trigger === 'inductive-distributor') return [];
  return [
    {
      title: 'Fit a capacitive-discharge box with its coil',
      set: {
        ...dischargeBox(ignition),
        'ignition.coil.made-for': 'capacitive-discharge',
      },
    },
  ];
}

function lowerRedline({ see, values: { engine } }: Situation, redline: Quantity): Repair[] {
  const time = see(coilChargeTime);
  if (!time) return [];
  const speed = highestSpeedForDwell(time.value, engine?.cylinders ?? 0);
  if (speed <= (engine?.['peak-power-speed']?.value ?? 0)) return [];
  const lower = roundedDown(speed, redline);
  return [{ title: `Lower the redline to ${lower}`, set: { 'engine.redline': lower }, shows: coilCurrentAtRedline }];
}
