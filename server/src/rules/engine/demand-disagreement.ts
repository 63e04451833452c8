import { inductionDefaults } from '../../engineering/demand.ts';
import { percent } from '../percent.ts';
import { above, below, type Situation, type StageRule } from '../rule.ts';
import { roundedDown } from '../size.ts';
import { outOfReach } from './power-out-of-reach.ts';

export const rule: StageRule = {
  id: 'engine/demand-disagreement',
  title: 'Fuel demand by power and by air disagree',
  severity: 'information',
  why: 'The fuel demand is worked out twice: from the claimed power, and from displacement, speed and volumetric efficiency. Where the two are far apart one of these entries does not belong to this engine, and every size that follows is as wrong as that entry.',
  inspect:
    'Check displacement against bore and stroke, the peak-power speed against the cam, and the power against a dynamometer sheet: at the crank or at the wheels?',
  remedy: 'Correct the entry that is wrong. If all are right, the volumetric efficiency is unusual: write it down.',
  source:
    'Heywood, Internal Combustion Engine Fundamentals (1988), eqs. 2.22, 2.27 and 3.9; the limit is common practice',
  check: (situation) => {
    const { figure, stage, values, limit, show } = situation;
    const found = disagreement(situation);
    const [byPower, byAir] = [figure('demand-by-power'), figure('demand-by-air')];
    if (!found || !byPower || !byAir || !stage.power) return undefined;
    const implied = figure('implied-volumetric-efficiency');
    const believable = inductionDefaults.natural.volumetricEfficiency;
    const isBelievable = implied && implied.value >= believable.low && implied.value <= believable.high;
    const power = roundedDown((stage.power.value * byAir.value) / byPower.value, stage.power);
    const efficiency = percent(implied?.value ?? 0);
    return {
      at: 'stage.power',
      message: `By power the engine needs ${show(byPower)} of fuel, by the air it can breathe ${show(byAir)}: ${percent(Math.abs(found.share))} apart, where ${percent(limit('demand-disagreement'))} is accepted.`,
      related: [
        { at: 'engine.displacement', message: 'The air follows from the displacement.' },
        { at: 'engine.peak-power-speed', message: 'And from this speed.' },
      ],
      ...found.miss,
      repairs: [
        { title: `Claim ${power}, as the air suggests`, set: { 'stage.power': power }, shows: 'demand-disagreement' },
        ...(isBelievable && !values.engine?.['volumetric-efficiency']
          ? [
              {
                title: `Give the volumetric efficiency the power implies, ${efficiency}`,
                set: { 'engine.volumetric-efficiency': efficiency },
                shows: 'demand-disagreement',
              },
            ]
          : []),
      ],
    };
  },
};

/** How far the two demands are apart where that is over the limit and not told as a claim out of reach. */
export function disagreement(situation: Situation) {
  const { figure, limit, induction, stage } = situation;
  if (outOfReach(situation) || (induction === 'natural' && stage.boost?.value)) return undefined;
  const share = figure('demand-disagreement');
  const most = limit('demand-disagreement');
  const miss = above(share, most) ?? below(share, -most);
  return share && miss ? { share: share.value, miss } : undefined;
}
