import { coilChargeTime, coilCurrentAtRedline, dwellAvailable, sparks } from '../../analysis/ignition.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { highestSpeedForDwell } from '../../engineering/ignition.ts';
import { isSlow } from '../../remedies/coil-charge.ts';
import { moreCoils, usualCoil } from '../../remedies/coil-sizes.ts';
import { dischargeBox } from '../../remedies/discharge-box.ts';
import { roundedDown } from '../../remedies/size.ts';
import type { Quantity } from '../../units/quantity.ts';

/** Share of the speed at which the coil just charges that a lower redline is put to. Common practice. */
const BELOW = 0.97;

export const rule: StageRule = {
  id: 'ignition/coil-not-saturated',
  title: 'Coil does not reach its working current at redline',
  severity: 'warning',
  capacity: true,
  why: 'The energy of the spark grows with the square of the current the coil has reached when the spark comes. A coil that has no time to charge misfires at high speed and full load, and the unburned mixture also misleads the oxygen sensor.',
  inspect: 'Current clamp and scope on the coil wire at high speed: the ramp must reach its top before the spark.',
  remedy:
    'A coil of less inductance, a capacitive-discharge box, one coil for each pair of cylinders, or a lower redline.',
  source: 'series RL circuit; spark duration and losses of driver and feed common practice, from memory',
  check: (situation) => {
    const { see, show, values } = situation;
    const coil = values.ignition?.coil;
    const redline = values.engine?.redline;
    const miss = isSlow(situation);
    if (!miss) return undefined;
    return {
      at: 'ignition.coil.working-current',
      message: `At ${show(redline)} the coil has ${show(see(dwellAvailable))} to charge and reaches ${show(see(coilCurrentAtRedline))} of its ${show(coil?.['working-current'])}.`,
      related: [{ at: 'engine.redline', message: 'The speed it has to charge at.' }],
      ...miss,
      repairs: [
        ...usualCoil(situation),
        ...moreCoils(situation),
        ...capacitiveDischarge(situation),
        ...(redline ? lowerRedline(situation, redline) : []),
      ],
    };
  },
};

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

function lowerRedline({ see, know, values: { engine } }: Situation, redline: Quantity): Repair[] {
  const [time, each] = [see(coilChargeTime), know(sparks)];
  if (!time || !each) return [];
  const speed = highestSpeedForDwell(time.value, each) * BELOW;
  if (speed <= (engine?.['peak-power-speed']?.value ?? 0)) return [];
  const lower = roundedDown(speed, redline);
  return [{ title: `Lower the redline to ${lower}`, set: { 'engine.redline': lower }, shows: coilCurrentAtRedline }];
}
