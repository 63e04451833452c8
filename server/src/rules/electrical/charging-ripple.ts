import { above, type StageRule } from '../../checking/rule.ts';

/** Alternating voltage at the battery above which a diode is suspected, V. Common practice, from memory. */
const MOST = 0.3;

/** What a sound alternator leaves, V. Common practice, from memory. */
const SOUND = '0.05 V';

export const rule: StageRule = {
  id: 'electrical/charging-ripple',
  title: 'Alternator ripples',
  severity: 'warning',
  why: 'One dead diode takes a third of the output and leaves a ripple on everything. The computer reads it as a signal of pickup or sensors, and the battery is cooked by it.',
  inspect:
    'Meter on AC volts at the battery posts, idle, lights and fan on; then at the post of the alternator, which tells a bad cable from a bad diode.',
  remedy: 'Have the rectifier replaced, clean the posts, and test again before the computer is plugged in.',
  source: 'common practice, from memory: 0.3 V',
  check: ({ values, compare }) => {
    const ripple = values.electrical?.ripple;
    const miss = ripple && above(ripple, MOST);
    if (!miss) return undefined;
    const shown = compare(ripple, MOST);
    return {
      at: 'electrical.ripple',
      message: `The battery ripples by ${shown.value}, more than ${shown.limit}: look for a dead diode in the alternator.`,
      ...miss,
      repairs: [{ title: `Mend the alternator until ${SOUND} or less are left`, set: { 'electrical.ripple': SOUND } }],
    };
  },
};
