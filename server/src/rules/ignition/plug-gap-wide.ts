import { above, type StageRule } from '../../checking/rule.ts';

/** Widest gap, m, under boost or with nitrous: 0.032 in. Common practice, from memory: 0.028 to 0.032 in. */
const MOST = 0.032 * 0.0254;

export const rule: StageRule = {
  id: 'ignition/plug-gap-wide',
  title: 'Plug gap too wide under boost or nitrous',
  severity: 'warning',
  why: 'A spark has to break through the charge, and a denser one asks for more voltage. What the coil cannot bring blows out at full load, and the cylinder that missed sends its fuel into the exhaust.',
  inspect: 'Gauge the gaps, all of them; a misfire at full load that goes away with a smaller gap tells it.',
  remedy: 'Close the gaps to 0.028 to 0.032 in, less with much boost, before a stronger ignition is bought.',
  source: 'common practice, from memory: 0.028 to 0.032 in',
  check: ({ values, stage, induction, show, showValue }) => {
    const isDense = induction !== 'natural' || stage.nitrous !== undefined;
    const gap = isDense ? values.ignition?.['plug-gap'] : undefined;
    const miss = gap && above(gap, MOST);
    if (!miss) return undefined;
    const most = gap.unit === 'in' ? '0.03 in' : showValue(0.75e-3, 'length');
    return {
      at: 'ignition.plug-gap',
      message: `A plug gap of ${show(gap)} is more than the ${showValue(MOST, 'length')} that sparks safely under ${induction === 'natural' ? 'nitrous' : 'boost'}: close it.`,
      ...miss,
      repairs: [{ title: `Close the gaps to ${most}`, set: { 'ignition.plug-gap': most } }],
    };
  },
};
