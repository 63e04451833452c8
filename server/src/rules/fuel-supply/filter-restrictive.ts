import { filterInletPressure, pumpDelivery, pumpPressure, railPressure } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { wayTooNarrow } from '../../remedies/rail-sag.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Largest loss of a clean filter as a share of the set pressure. Common practice, from memory: 2 to 5 psi of 58 psi. */
const LARGEST_SHARE = 0.1;
/** Loss of a filter of the next larger size, against the limit. Common practice. */
const LARGER_FILTER = 0.5;

export const rule: StageRule = {
  id: 'fuel-supply/filter-restrictive',
  title: 'The fine filter takes much pressure even when clean',
  severity: 'warning',
  capacity: true,
  why: 'The pressure drop of a filter doubles long before anyone changes it, and the pump has to work against all of it. A filter with more paper costs little and keeps the pump cooler and the rail steady.',
  inspect: 'Gauge before and behind the filter at idle, when the whole delivery passes it.',
  remedy: 'Fit a larger filter of the same fineness, with ports as wide as the line.',
  source: "common practice, from memory: a tenth of the set pressure; Darcy's law for the pressure drop",
  check: (situation) => {
    const { values, see, show, compare } = situation;
    const filter = values['fuel-system']?.filter;
    const setting = values['fuel-system']?.regulator?.pressure;
    const [inlet, rail] = [see(filterInletPressure), see(railPressure)];
    if (!filter?.loss || !setting || !inlet || !rail) return undefined;
    if (values['fuel-system']?.regulator?.style === 'dead-head' || wayTooNarrow(situation)) return undefined;
    const lost = inlet.value - rail.value;
    const most = LARGEST_SHARE * setting.value;
    const miss = above({ value: lost }, most);
    if (!miss) return undefined;
    const shown = compare({ value: lost, dimension: 'pressure' }, most);
    const loss = roundedDown((filter.loss.value * most * LARGER_FILTER) / lost, filter.loss);
    return {
      at: 'fuel-system.filter.loss',
      message: `With the whole delivery the clean filter takes ${shown.value} of the ${show(setting)} held; up to ${shown.limit} is usual.`,
      related: [{ at: 'fuel-system.pump', message: `It sends ${show(see(pumpDelivery))} through the filter.` }],
      ...miss,
      repairs: [
        {
          title: `Fit a larger filter that loses ${loss} at ${show(filter['loss-at'])}`,
          set: { 'fuel-system.filter.loss': loss },
          shows: pumpPressure,
        },
      ],
    };
  },
};
