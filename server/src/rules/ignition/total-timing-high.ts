import type { StageRule } from '../../checking/rule.ts';
import { startingTiming } from '../../engineering/timing.ts';
import { fromStageOn } from '../../remedies/from-stage-on.ts';

/** Degrees over the usual starting figure from which total timing asks for a second look. Common practice, from memory. */
const USUAL_SPREAD = 6;

export const rule: StageRule = {
  id: 'ignition/total-timing-high',
  title: 'Total timing beyond the usual range',
  severity: 'warning',
  why: 'Timing that is too early makes the engine knock, and knock breaks it, often before it is heard. Start low, confirm the pointer with a timing light and add in small steps under load, on a dyno where you can.',
  inspect:
    'Check the pointer with a piston stop first. Then timing light at full advance, vacuum hose off and plugged.',
  remedy: 'Start at the usual figure and add in small steps under load, on a dyno where you can.',
  source: 'common practice for pump fuel, from memory',
  cautions: ['knock'],
  check: (situation) => {
    const { values, induction, show, showValue } = situation;
    const total = values.ignition?.['total-timing'];
    const usual = startingTiming(induction).fullLoad;
    if (!total || total.value <= usual + USUAL_SPREAD) return undefined;
    const boosted = induction === 'natural' ? '' : ' before boost is taken out';
    return {
      at: 'ignition.total-timing',
      message: `Total timing of ${show(total)}${boosted} is early. ${showValue(usual, 'angle')} is usual to start from; more than ${showValue(usual + USUAL_SPREAD, 'angle')} is rare.`,
      excess: total.value - usual,
      repairs: [
        fromStageOn(situation, `Start from ${showValue(usual, 'angle')}`, {
          'ignition.total-timing': showValue(usual, 'angle'),
        }),
      ],
    };
  },
};
