import { coilCurrentAtRedline, coilEnergyAtRedline } from '../../analysis/ignition.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { usefulEnergy } from '../../engineering/coil.ts';
import { isChargedByBattery, isSlow } from '../../remedies/coil-charge.ts';
import { moreCoils, usualCoil } from '../../remedies/coil-sizes.ts';
import { fullVoltage } from '../../remedies/full-voltage.ts';

export const rule: StageRule = {
  id: 'ignition/spark-weak',
  title: 'Coil stores too little for a sure spark',
  severity: 'warning',
  capacity: true,
  why: 'What the spark has to give is what the coil has stored, and that grows with its inductance and with the square of its current. Under full load and boost a small spark goes out, the engine misfires, and the unburned mixture also misleads the oxygen sensor.',
  inspect:
    'Read resistance and inductance of the primary in the data of the coil; an inductance meter shows up a typo.',
  remedy: 'Full voltage where a ballast holds the current down, a coil that stores more, or more coils.',
  source: 'energy of an inductance, a law of physics; 30 mJ is common practice, from memory: 30 to 60 mJ',
  check: (situation) => {
    const { see, show, compare, values } = situation;
    const energy = see(coilEnergyAtRedline);
    const miss = below(energy, usefulEnergy.value);
    if (!energy || !miss || !isChargedByBattery(situation) || isSlow(situation)) return undefined;
    const shown = compare(energy, usefulEnergy.value);
    const held = values.ignition?.coil?.['working-current'];
    const reached = see(coilCurrentAtRedline);
    const current = held && reached && held.value < reached.value ? show(held) : show(reached);
    return {
      at: 'ignition.coil',
      message: `At redline the coil stores ${shown.value} at ${current}; ${shown.limit} makes a sure spark.`,
      related: [{ at: 'engine.redline', message: 'The speed it has to charge at.' }],
      ...miss,
      repairs: [...fullVoltage(situation, coilEnergyAtRedline), ...usualCoil(situation), ...moreCoils(situation)],
    };
  },
};
