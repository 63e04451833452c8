import { hoodGap } from '../../analysis/stack.ts';
import type { StageRule } from '../../checking/rule.ts';
import { ADAPTER_THICKNESS } from '../../engineering/stack.ts';

export const rule: StageRule = {
  id: 'throttle-body/adapter-thickness-assumed',
  title: 'Adapter in the stack without a thickness',
  severity: 'hint',
  why: 'The adapter raises everything above it, and plates from 3/16 in to 2 in are sold. The gap under the hood is only as good as the height that was added up.',
  inspect: 'Calipers on the plate, gaskets with it.',
  remedy: 'Write the thickness down.',
  source: 'common practice',
  check: ({ values, see, show, showValue }) => {
    const gap = see(hoodGap);
    if (!gap || !values.stack?.adapter || values.stack.adapter.thickness) return undefined;
    return {
      at: 'stack.adapter',
      message: `The gap of ${show(gap)} under the hood counts on an adapter ${showValue(ADAPTER_THICKNESS, 'length')} thick, which is only assumed.`,
      related: [{ at: 'vehicle.hood-clearance', message: 'The room under the hood.' }],
      repairs: [{ title: 'Use an adapter of 3/16 in', set: { 'stack.adapter.thickness': '3/16 in' } }],
    };
  },
};
