import type { Draft, StageRule } from '../../checking/rule.ts';

const ENDS = [
  ['teeth', 'computer-teeth', 'teeth'],
  ['missing', 'computer-missing', 'missing teeth'],
] as const;

export const rule: StageRule = {
  id: 'ignition/trigger-wheel-mismatch',
  title: 'Computer reads another trigger wheel than is fitted',
  severity: 'error',
  why: 'From the teeth the computer counts the speed and finds the place of the crank. Told another wheel it sees a wrong speed, never finds the gap, or sparks at a wrong angle.',
  inspect:
    'Count the teeth with the pickup out, turning the crank once by hand; missing ones count. A wheel on the distributor turns at half speed.',
  remedy:
    'Choose the pattern that is fitted in the settings; where the computer does not know it, fit a wheel it knows. Then check the timing with a light.',
  source: 'common practice',
  check: ({ values }) => {
    const wheel = values.ignition?.['trigger-wheel'];
    return ENDS.flatMap(([fitted, told, words]): Draft[] => {
      const [has, knows] = [wheel?.[fitted], wheel?.[told]];
      if (has === undefined || knows === undefined || has === knows) return [];
      return [
        {
          at: `ignition.trigger-wheel.${told}`,
          message: `The computer was told ${knows} ${words}, but the wheel has ${has}: enter the wheel that is fitted.`,
          related: [{ at: `ignition.trigger-wheel.${fitted}`, message: 'The wheel that is fitted.' }],
          repairs: [{ title: `Enter ${has} ${words}`, set: { [`ignition.trigger-wheel.${told}`]: has } }],
        },
      ];
    });
  },
};
