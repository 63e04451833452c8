import type { Figure } from '../../analysis/figure.ts';
import { highestSpeedForDwell } from '../../engineering/ignition.ts';
import { below, type Repair, type Situation, type StageRule } from '../rule.ts';
import { roundedDown } from '../size.ts';

export const rule: StageRule = {
  id: 'ignition/coil-not-saturated',
  title: 'Coil does not reach its working current at redline',
  severity: 'warning',
  capacity: true,
  why: 'The energy of the spark grows with the square of the current the coil has reached when the spark comes. A coil that has no time to charge misfires at high speed and full load, and the unburnt mixture also misleads the oxygen sensor.',
  source: 'series RL circuit; spark duration common practice, from memory',
  check: (situation) => {
    const { figure, show } = situation;
    const { ignition, engine } = situation.values;
    const wanted = ignition?.coil?.['working-current'];
    const reached = figure('coil-current-redline');
    if (!wanted || !reached || !isChargedByBattery(situation)) return undefined;
    const miss = below(reached, wanted.value);
    if (!miss) return undefined;
    return {
      at: 'ignition.coil.working-current',
      message: `At ${show(engine?.redline)} the coil has ${show(figure('dwell-available'))} to charge and reaches ${show(reached)} of its ${show(wanted)}.`,
      related: [{ at: 'engine.redline', message: 'The speed it has to charge at.' }],
      ...miss,
      repairs: [
        ...fasterCoil(situation, reached, wanted.value),
        ...capacitiveDischarge(situation),
        ...lowerRedline(situation),
      ],
    };
  },
};

/** Neither behind a box, nor short of voltage by a ballast: those are told by rules of their own. */
function isChargedByBattery({ values: { ignition } }: Situation): boolean {
  const { driver, supply, coil } = ignition ?? {};
  if (driver === 'capacitive-discharge' || coil?.['made-for'] === 'capacitive-discharge') return false;
  return (supply === undefined || supply === 'full-voltage') && !coil?.ballast?.value;
}

/** Final current over working current of a coil to choose where the present one never gets there. Common practice, from memory. */
const HEADROOM = 1.5;

/** A coil with the inductance that just lets the current rise in time, and less resistance where that alone holds it down. */
function fasterCoil({ figure, values }: Situation, { id, inputs }: Figure, current: number): Repair[] {
  const inductance = values.ignition?.coil?.inductance;
  const dwell = figure('dwell-available')?.value ?? 0;
  const voltage = inputs.find(({ symbol }) => symbol === 'U')?.value ?? 0;
  const resistance = values.ignition?.coil?.resistance;
  if (!inductance || !resistance || dwell <= 0) return [];
  const isHeldDown = current * resistance.value >= voltage;
  const ohms = isHeldDown ? voltage / (HEADROOM * current) : resistance.value;
  const size = roundedDown((-dwell * ohms) / Math.log1p((-current * ohms) / voltage), inductance);
  const less = roundedDown(ohms, resistance);
  return [
    {
      title: `Fit a coil of ${isHeldDown ? `${less} and ` : ''}${size}`,
      set: { ...(isHeldDown ? { 'ignition.coil.resistance': less } : {}), 'ignition.coil.inductance': size },
      shows: id,
    },
  ];
}

function capacitiveDischarge({ values: { ignition } }: Situation): Repair[] {
  if (ignition?.trigger === 'inductive-distributor') return [];
  return [
    {
      title: 'Fit a capacitive-discharge box with its coil',
      set: {
        'ignition.driver': 'capacitive-discharge',
        'ignition.coil.made-for': 'capacitive-discharge',
        ...(ignition?.['tach-signal'] === 'coil-negative' ? { 'ignition.tach-signal': 'box-output' } : {}),
      },
    },
  ];
}

function lowerRedline({ figure, values: { engine } }: Situation): Repair[] {
  const time = figure('coil-charge-time');
  if (!time || !engine?.redline || !engine.cylinders) return [];
  const speed = highestSpeedForDwell(time.value, engine.cylinders);
  if (speed <= (engine['peak-power-speed']?.value ?? 0)) return [];
  const redline = roundedDown(speed, engine.redline);
  return [
    { title: `Lower the redline to ${redline}`, set: { 'engine.redline': redline }, shows: 'coil-current-redline' },
  ];
}
