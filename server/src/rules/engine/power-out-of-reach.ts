import { withSpread } from '../../analysis/figure-words.ts';
import type { StageRule } from '../../checking/rule.ts';
import { outOfReach } from '../../remedies/power-reach.ts';
import { roundedDown, roundedUp } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'engine/power-out-of-reach',
  title: 'Power claim out of reach',
  severity: 'warning',
  why: 'Injectors, pump and throttle body are sized by the claimed power. A claim the engine cannot make buys parts too large, and injectors too large idle badly. Power, displacement, speed or induction is written wrong, or hoped for.',
  inspect:
    'Check displacement and peak-power speed first; then ask where the power was read, at the crank or at the wheels.',
  remedy:
    'Claim what an engine of this size can make at this speed, or write down the speed or the induction that makes it.',
  source:
    'brake mean effective pressure: Heywood (1988), section 2.7, from memory; volumetric efficiency and outer bounds common practice',
  check: (situation) => {
    const { stage, values, induction, show, showValue } = situation;
    const beyond = outOfReach(situation);
    const speed = values.engine?.['peak-power-speed'];
    if (!beyond || !stage.power || !speed) return undefined;
    const { node, figure, most, miss } = beyond;
    const redline = values.engine?.redline;
    const speedNeeded = (speed.value * (figure.high ?? figure.value)) / most;
    return {
      at: 'stages.power',
      message: `${show(stage.power)} at ${show(speed)} asks for a ${figure.name.replace(' the claim implies', '')} of ${withSpread(figure, situation.showValue)}; with ${induction} induction ${showValue(most, figure.dimension)} is about the most.`,
      related: [
        { at: 'engine.displacement', message: `From ${show(values.engine?.displacement)}.` },
        { at: 'engine.peak-power-speed', message: 'At this speed.' },
      ],
      ...miss,
      repairs: [
        {
          title: `Claim ${roundedDown((stage.power.value * most) / figure.value, stage.power)}`,
          set: { 'stages.power': roundedDown((stage.power.value * most) / figure.value, stage.power) },
          shows: node,
        },
        ...(redline && speedNeeded <= redline.value
          ? [
              {
                title: `Make it at ${roundedUp(speedNeeded, speed)}`,
                set: { 'engine.peak-power-speed': roundedUp(speedNeeded, speed) },
                shows: node,
              },
            ]
          : []),
      ],
    };
  },
};
