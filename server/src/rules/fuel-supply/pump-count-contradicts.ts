import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-count-contradicts',
  title: 'Number and arrangement of the pumps contradict each other',
  severity: 'warning',
  why: 'Flow, current and fuse all follow from how many pumps run at once. With a number and an arrangement that do not fit together, the figures are those of a fuel system that is not in the car.',
  inspect: 'Count the pumps, and see what switches each.',
  remedy: 'Write down what is there and how it runs.',
  source: 'common practice',
  check: ({ values }) => {
    const pump = values['fuel-system']?.pump;
    const count = pump?.quantity ?? 1;
    if (pump?.arrangement === 'single' && count > 1) {
      return {
        at: 'fuel-system.pump.arrangement',
        message: `The arrangement is "single", but the quantity is ${count}; the figures count one pump.`,
        related: [{ at: 'fuel-system.pump.quantity', message: `${count} pumps.` }],
        repairs: [
          { title: 'Write that they run in parallel', set: { 'fuel-system.pump.arrangement': 'parallel' } },
          { title: 'Write that the others only stand by', set: { 'fuel-system.pump.arrangement': 'spare' } },
          { title: 'Write one pump', set: { 'fuel-system.pump.quantity': 1 } },
        ],
      };
    }
    if (!pump?.arrangement || pump.arrangement === 'single' || count > 1) return undefined;
    return {
      at: 'fuel-system.pump.arrangement',
      message: `The arrangement is "${pump.arrangement}", but the sheet has one pump only.`,
      repairs: [
        { title: 'Write two pumps', set: { 'fuel-system.pump.quantity': 2 } },
        { title: 'Write that it is a single pump', set: { 'fuel-system.pump.arrangement': 'single' } },
      ],
    };
  },
};
