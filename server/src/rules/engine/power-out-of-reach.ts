import { meanEffectivePressure } from '../../analysis/demand.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { claimUsual, engineInWords, outOfReach } from '../../remedies/power-reach.ts';
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
    'brake mean effective pressure at peak power by the cam, and volumetric efficiency: common practice; Heywood (1988), section 2.7, from memory',
  check: (situation) => {
    const { stage, values, show, compare } = situation;
    const beyond = outOfReach(situation);
    const speed = values.engine?.['peak-power-speed'];
    if (!beyond || !stage.power || !speed) return undefined;
    const { figure, most, miss } = beyond;
    const shown = compare(figure, most);
    return {
      at: 'stages.power',
      message: `${show(stage.power)} at ${show(speed)} asks for a ${figure.name.replace(' the claim implies', '')} of ${shown.value}; of ${engineInWords(situation)} ${shown.limit} is about the most.`,
      related: [
        { at: 'engine.displacement', message: `From ${show(values.engine?.displacement)}.` },
        { at: 'engine.peak-power-speed', message: 'At this speed.' },
      ],
      ...miss,
      repairs: [...claimUsual(situation), ...claimAtMost(situation, beyond), ...higherSpeed(situation, beyond)],
    };
  },
};

type Beyond = NonNullable<ReturnType<typeof outOfReach>>;

/** The most that is believed, where the usual figure is above it: the air sets the bound then. */
function claimAtMost({ stage }: Situation, { node, figure, most }: Beyond): Repair[] {
  if (!stage.power || node.id === meanEffectivePressure.id) return [];
  const power = roundedDown((stage.power.value * most) / figure.value, stage.power);
  return [{ title: `Claim ${power}`, set: { 'stages.power': power }, shows: node }];
}

/** The speed at which the power is believed, where the engine turns so fast. */
function higherSpeed({ values }: Situation, { node, figure, most }: Beyond): Repair[] {
  const { 'peak-power-speed': speed, redline } = values.engine ?? {};
  const needed = speed && (speed.value * (figure.high ?? figure.value)) / most;
  if (!redline || !speed || !needed || needed > redline.value) return [];
  const text = roundedUp(needed, speed);
  return [{ title: `Make it at ${text}`, set: { 'engine.peak-power-speed': text }, shows: node }];
}
