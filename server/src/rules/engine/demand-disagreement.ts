import { demandByAir, demandByPower, demandDisagreement, impliedVolumetricEfficiency } from '../../analysis/demand.ts';
import type { StageRule } from '../../checking/rule.ts';
import { inductionDefaults } from '../../engineering/demand.ts';
import { percent } from '../../remedies/percent.ts';
import { disagreement } from '../../remedies/power-disagreement.ts';
import { roundedDown } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'engine/demand-disagreement',
  title: 'Fuel demand by power and by air disagree',
  severity: 'information',
  why: 'The fuel demand is worked out twice: from the claimed power, and from displacement, speed and volumetric efficiency. Where the two are far apart one of these entries does not belong to this engine, and every size that follows is as wrong as that entry.',
  inspect:
    'Check displacement against bore and stroke, the peak-power speed against the cam, and the power against a dyno sheet: at the crank or at the wheels?',
  remedy: 'Correct the entry that is wrong. If all are right, the volumetric efficiency is unusual: write it down.',
  source:
    'Heywood, Internal Combustion Engine Fundamentals (1988), eqs. 2.22, 2.27 and 3.9; the limit is common practice',
  check: (situation) => {
    const { see, stage, values, limit, show } = situation;
    const found = disagreement(situation);
    const [byPower, byAir] = [see(demandByPower), see(demandByAir)];
    if (!found || !byPower || !byAir || !stage.power) return undefined;
    const implied = see(impliedVolumetricEfficiency);
    const believable = inductionDefaults.natural.volumetricEfficiency;
    const isBelievable = implied && implied.value >= believable.low && implied.value <= believable.high;
    const power = roundedDown((stage.power.value * byAir.value) / byPower.value, stage.power);
    const efficiency = percent(implied?.value ?? 0);
    return {
      at: 'stages.power',
      message: `By power the engine needs ${show(byPower)} of fuel, by the air it can breathe ${show(byAir)}: ${percent(Math.abs(found.share))} apart, where ${percent(limit('demand-disagreement'))} is accepted.`,
      related: [
        { at: 'engine.displacement', message: 'The air follows from the displacement.' },
        { at: 'engine.peak-power-speed', message: 'And from this speed.' },
      ],
      ...found.miss,
      repairs: [
        { title: `Claim ${power}, as the air suggests`, set: { 'stages.power': power }, shows: demandDisagreement },
        ...(isBelievable && !values.engine?.['volumetric-efficiency']
          ? [
              {
                title: `Give the volumetric efficiency the power implies, ${efficiency}`,
                set: { 'engine.volumetric-efficiency': efficiency },
                shows: demandDisagreement,
              },
            ]
          : []),
      ],
    };
  },
};
