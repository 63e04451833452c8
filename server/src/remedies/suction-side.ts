import { hotFuelDensity } from '../analysis/fuel.ts';
import { suctionLimitTemperature, suctionLoss, suctionMargin } from '../analysis/suction.ts';
import { above, below, type Situation } from '../checking/rule.ts';
import { GRAVITY } from '../engineering/constants.ts';
import { roundedDown } from './size.ts';

type Part = Pick<Situation, 'values' | 'see' | 'limit'>;

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
export function marginMiss({ see, limit }: Part) {
  return below(see(suctionMargin), limit('suction-margin'));
}

/** Length of the line from the tank to the pump, as the pump or the line itself gives it. */
export function suctionLength({ values }: Pick<Situation, 'values'>) {
  return values['fuel-system']?.suction?.length ?? values['fuel-system']?.pump?.distance;
}

/** Suction head, m, that the way from the tank to the pump takes. */
export function headLost({ see }: Pick<Situation, 'see'>): number {
  const [loss, density] = [see(suctionLoss), see(hotFuelDensity)];
  return loss && density ? loss.value / (density.value * GRAVITY) : 0;
}

/** Lowest a pump can sit under the tank outlet of a usual vehicle, m. Common practice. */
const LOWEST = -0.4;

/** A lower place for the pump that gains so much suction head, m, as text; nothing where no vehicle has that room. */
export function lowerPlace({ values }: Pick<Situation, 'values'>, gain: number): string | undefined {
  const height = values['fuel-system']?.pump?.['height-above-outlet'];
  if (!height || height.value - gain < LOWEST) return undefined;
  return roundedDown(height.value - gain, height);
}

/** A height over the tank outlet in words: `165 mm below the tank outlet`. */
export function belowOutlet(height: string): string {
  return height.startsWith('-') ? `${height.slice(1)} below the tank outlet` : `${height} above the tank outlet`;
}

/** Fuel below this, K, is not met; the search for the temperature ends there. */
const COLDEST = 234;

/** A sentence on the suction margin, where it is under its limit too. */
export function marginSentence(
  situation: Pick<Situation, 'see' | 'limit' | 'values' | 'show' | 'showValue' | 'compare'>,
): string {
  const { see, limit, show, showValue, compare } = situation;
  const margin = see(suctionMargin);
  if (!margin || !marginMiss(situation)) return '';
  const shown = compare(margin, limit('suction-margin'));
  const gone = see(suctionLimitTemperature);
  const temperature = gone && gone.value > COLDEST ? `; the margin is gone with fuel at ${show(gone)}` : '';
  const lacks =
    margin.value < 0
      ? `It lacks ${showValue(-margin.value, 'length')} of suction head`
      : `The suction margin is ${shown.value}, and ${shown.limit} must be left`;
  return ` ${lacks}${temperature}.`;
}
