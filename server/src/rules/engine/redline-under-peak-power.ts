import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'engine/redline-under-peak-power',
  title: 'Redline below the peak-power speed',
  severity: 'warning',
  why: 'The engine is never run to the speed at which it is said to make its power, so one of the two speeds is wrong. Injector duty, coil charge and air are worked out at both.',
  inspect: 'Look at the dyno sheet: power peaks before the redline.',
  remedy: 'Correct the speed that is wrong; they are often swapped.',
  source: 'definition',
  check: ({ values, show }) => {
    const { redline, 'peak-power-speed': peak } = values.engine ?? {};
    if (!redline || !peak || redline.value >= peak.value) return undefined;
    return {
      at: 'engine.redline',
      message: `The redline of ${show(redline)} is below the ${show(peak)} at which the power is claimed.`,
      related: [{ at: 'engine.peak-power-speed', message: 'The speed of the claimed power.' }],
      excess: peak.value - redline.value,
      repairs: [
        {
          title: 'Swap the two speeds',
          set: { 'engine.redline': peak.text, 'engine.peak-power-speed': redline.text },
        },
        {
          title: `Claim the power at the redline, ${redline.text}`,
          set: { 'engine.peak-power-speed': redline.text },
        },
      ],
    };
  },
};
