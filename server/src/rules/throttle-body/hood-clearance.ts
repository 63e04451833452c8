import { hoodGap, stackHeight } from '../../analysis/stack.ts';
import { below, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { roundedDown, roundedUp } from '../../remedies/size.ts';

/** Lowest air cleaner that still feeds a throttle body: 2 in (m). Common practice. */
const LOWEST_CLEANER = 0.0508;

export const rule: StageRule = {
  id: 'throttle-body/hood-clearance',
  title: 'Stack too tall for the hood',
  severity: 'warning',
  why: 'The engine rocks on its mounts and the hood bends in: a stack without a gap strikes the hood or does not let it close, and a hood that springs open blocks the view. Measure with clay before cutting anything.',
  inspect:
    'Lumps of clay on the air cleaner, hood down gently, then measure them. Do it again with the engine rocked on its mounts.',
  remedy:
    'Lower air cleaner or thinner spacer first; a scoop or a raised hood after that. A hood that strikes springs open on the road.',
  source: 'common practice',
  check: (situation) => {
    const { see, limit, show, showValue, compare, values } = situation;
    const gap = see(hoodGap);
    const miss = below(gap, limit('hood-gap'));
    if (!gap || !miss) return undefined;
    const { stack } = values;
    const shown = compare(gap, limit('hood-gap'));
    return {
      at: 'stack.air-cleaner',
      message: `The stack of ${show(see(stackHeight))} ${gap.value < 0 ? `is ${showValue(-gap.value, 'length')} too tall for the hood` : `leaves ${shown.value} under the hood`}, where a gap of ${shown.limit} should stay.`,
      related: [
        { at: 'vehicle.hood-clearance', message: 'The room under the hood.' },
        { at: 'throttle-body.height', message: 'The throttle body.' },
        ...(stack?.adapter ? [{ at: 'stack.adapter' as const, message: 'The adapter.' }] : []),
        ...(stack?.spacer ? [{ at: 'stack.spacer' as const, message: 'The spacers.' }] : []),
      ],
      ...miss,
      repairs: lowerStack(situation, limit('hood-gap') - (gap.low ?? gap.value)),
    };
  },
};

function lowerStack({ values }: Situation, missing: number): Repair[] {
  const { stack, vehicle } = values;
  const repairs: Repair[] = [];
  if (stack?.spacer && stack.spacer.value >= missing)
    repairs.push({ title: 'Leave the spacers out', remove: ['stack.spacer'], shows: hoodGap });
  const cleaner = stack?.['air-cleaner'];
  if (cleaner && cleaner.value - missing >= LOWEST_CLEANER) {
    const height = roundedDown(cleaner.value - missing, cleaner);
    repairs.push({
      title: `Use an air cleaner of ${height}`,
      set: { 'stack.air-cleaner': height },
      shows: hoodGap,
    });
  }
  const room = vehicle?.['hood-clearance'];
  if (room) {
    const raised = roundedUp(room.value + missing, room);
    repairs.push({
      title: `Raise the hood, to ${raised} of room`,
      set: { 'vehicle.hood-clearance': raised },
      shows: hoodGap,
    });
  }
  return repairs;
}
