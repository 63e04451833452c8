import { sitePressure } from '../../analysis/air.ts';
import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { coarselyUp } from '../../remedies/size.ts';

/** Most that the cut may be above the boost of the stage, as a share of it, and the usual. Common practice, from memory. */
const MOST = 1.3;
const USUAL = 1.15;

export const rule: StageRule = {
  id: 'engine/overboost-uncut',
  title: 'Nothing cuts when the boost runs away',
  severity: 'error',
  why: 'A hose that comes off a wastegate or a smaller pulley lets the boost climb until something breaks, within one pull. The cut has to stand above the boost that is wanted, near enough to be in time, and where the manifold-pressure sensor can still read it.',
  inspect:
    'Look in the settings for the cut, and in a log for the top of the sensor. Try the cut set low first, at light load.',
  remedy:
    'A cut some 15 % above the boost of the stage, of fuel and spark together; a sensor that reads beyond it. Set it on a dyno, by someone with experience.',
  source: 'common practice, from memory: 15 % above, 30 % at most',
  check: (situation) => {
    const { stage, induction, show } = situation;
    if (induction === 'natural') return undefined;
    const cut = stage['overboost-cut'];
    const { boost } = stage;
    if (!cut || !boost) return undefined;
    const wrong = wrongCut(cut.value, boost.value, show(cut));
    if (!wrong) return unseenCut(situation, cut.value);
    const to = coarselyUp(USUAL * boost.value, boost);
    return {
      at: 'stages.overboost-cut',
      message: `${wrong} Set it some 15 % above the ${show(boost)} of the stage.`,
      related: [{ at: 'stages.boost', message: 'The boost of this stage.' }],
      repairs: [{ title: `Cut at ${to}`, set: { 'stages.overboost-cut': to } }],
    };
  },
};

function wrongCut(cut: number, boost: number, shown: string): string | undefined {
  if (cut === 0) return 'Nothing cuts fuel or spark when the boost runs away.';
  if (cut <= boost) return `The cut at ${shown} comes before the boost that is wanted.`;
  return cut > MOST * boost ? `The cut at ${shown} comes too late.` : undefined;
}

/** A cut beyond the top of the manifold-pressure sensor, in the air of the site. */
function unseenCut({ values, stage, see, show, showValue }: Situation, cut: number): Draft | undefined {
  const range = values.sensors?.['manifold-pressure']?.range;
  const air = range && see(sitePressure);
  if (!air || range.value >= air.value + cut) return undefined;
  const to = coarselyUp(air.value + cut, range);
  return {
    at: 'stages.overboost-cut',
    message: `The manifold-pressure sensor ends at ${show(range)} absolute and never sees a cut at ${show(stage['overboost-cut'])} of boost, ${showValue(air.value + cut, 'absolute-pressure')} absolute: fit one that reads further.`,
    related: [{ at: 'sensors.manifold-pressure.range', message: 'The top of the sensor.' }],
    repairs: [{ title: `Fit a sensor that reads to ${to}`, set: { 'sensors.manifold-pressure.range': to } }],
  };
}
