import { meanEffectivePressure } from '../../analysis/demand.ts';
import { withSpread } from '../../analysis/figure-words.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { claimUsual, engineInWords, underReach } from '../../remedies/power-reach.ts';
import { formatIn } from '../../units/format.ts';

export const rule: StageRule = {
  id: 'engine/power-below-reach',
  title: 'Power claim far below what the engine makes',
  severity: 'warning',
  why: 'Injectors and pump are sized by the claimed power, but the engine takes the air its displacement and speed give it. If it makes far more than is claimed, fuel runs short at full throttle and the engine goes lean. More often a figure slipped: displacement, speed or power.',
  inspect: 'Bore, stroke and number of cylinders give the displacement; the badge may be of another engine.',
  remedy:
    'Correct the figure that slipped. An engine that is held back on purpose, by a plate or a governor, makes its power at a lower speed: write that speed down.',
  source: 'brake mean effective pressure at peak power by the cam: common practice',
  check: (situation) => {
    const { stage, values, show, showValue } = situation;
    const under = underReach(situation);
    const { displacement, 'peak-power-speed': speed } = values.engine ?? {};
    if (!under || !stage.power || !displacement || !speed) return undefined;
    const { figure, least, miss } = under;
    return {
      at: 'stages.power',
      message: `${show(stage.power)} from ${show(displacement)} at ${show(speed)} is a ${figure.name} of only ${withSpread(figure, showValue)}; of ${engineInWords(situation)} ${showValue(least, figure.dimension)} is about the least.`,
      related: [
        { at: 'engine.displacement', message: 'So large.' },
        { at: 'engine.peak-power-speed', message: 'At this speed.' },
      ],
      ...miss,
      repairs: slippedPoint(situation, figure.value / least) ?? claimUsual(situation),
    };
  },
};

/** Ten times the pressure is believed: the decimal point of the displacement may have slipped. */
function slippedPoint({ values }: Situation, share: number): Repair[] | undefined {
  const size = values.engine?.displacement;
  if (!size || share * 10 < 1 || share * 10 > 2.5) return undefined;
  const text = formatIn(size.value / 10, size.dimension, size.unit);
  return [
    {
      title: `Write ${text}, if the point slipped`,
      set: { 'engine.displacement': text },
      shows: meanEffectivePressure,
    },
  ];
}
