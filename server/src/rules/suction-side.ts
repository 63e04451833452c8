import { above, below, type Situation } from './rule.ts';

type Part = Pick<Situation, 'values' | 'figure' | 'limit'>;

/** An external pump above the tank outlet, beyond the limit. */
export function heightMiss({ values, limit }: Part) {
  const pump = values['fuel-system']?.pump;
  return pump?.placement === 'external' ? above(pump['height-above-outlet'], limit('suction-height')) : undefined;
}

/** An external pump with more line to the tank than the limit. */
export function distanceMiss({ values, limit }: Part) {
  const pump = values['fuel-system']?.pump;
  return pump?.placement === 'external' ? above(suctionLength({ values }), limit('suction-distance')) : undefined;
}

/** An external pump with less suction margin than the limit. */
export function marginMiss({ figure, limit }: Part) {
  return below(figure('suction-margin'), limit('suction-margin'));
}

/** Length of the line from the tank to the pump, as the pump or the line itself gives it. */
export function suctionLength({ values }: Pick<Situation, 'values'>) {
  return values['fuel-system']?.suction?.length ?? values['fuel-system']?.pump?.distance;
}

/** Fuel below this, K, is not met; the search for the temperature ends there. */
const COLDEST = 234;

/** A sentence on the suction margin, where it is under its limit too. */
export function marginSentence(
  situation: Pick<Situation, 'figure' | 'limit' | 'values' | 'show' | 'showValue'>,
): string {
  const { figure, limit, show, showValue } = situation;
  const margin = figure('suction-margin');
  if (!margin || !marginMiss(situation)) return '';
  const gone = figure('suction-limit-temperature');
  const temperature = gone && gone.value > COLDEST ? `; the margin is gone with fuel at ${show(gone)}` : '';
  const lacks =
    margin.value < 0
      ? `It lacks ${showValue(-margin.value, 'length')} of suction head`
      : `The suction margin is ${show(margin)}, and ${showValue(limit('suction-margin'), 'length')} must be left`;
  return ` ${lacks}${temperature}.`;
}
