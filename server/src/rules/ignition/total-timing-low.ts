import type { StageRule } from '../../checking/rule.ts';
import { startingTiming } from '../../engineering/timing.ts';

/** Total timing, degrees, below which an engine with two valves a cylinder is usually late. Common practice, from memory. */
const LEAST_USUAL = 22;

export const rule: StageRule = {
  id: 'ignition/total-timing-low',
  title: 'Total timing later than usual',
  severity: 'information',
  why: 'A late spark still burns when the exhaust valve opens: power is lost, and the exhaust and the cooling get its heat. The entry may also be the initial timing at idle instead of the total at full load.',
  inspect: 'Check the pointer with a piston stop, then timing light at the speed where the advance ends.',
  remedy: 'Write down the total and not the initial timing, or set it to where such engines start from.',
  source: 'common practice for pump fuel, from memory',
  check: ({ values, induction, show, showValue }) => {
    const total = values.ignition?.['total-timing'];
    if (!total || total.value >= LEAST_USUAL) return undefined;
    const usual = showValue(startingTiming(induction).fullLoad, 'angle');
    return {
      at: 'ignition.total-timing',
      message: `Total timing of ${show(total)} is late for full load; ${usual} is usual to start from.`,
      repairs: [{ title: `Start from ${usual}`, set: { 'ignition.total-timing': usual } }],
    };
  },
};
