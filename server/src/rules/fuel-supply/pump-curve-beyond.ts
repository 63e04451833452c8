import { pumpDelivery, pumpPressure, returnBackPressureShare } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import type { Points } from '../../units/quantity.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-curve-beyond',
  title: 'The pump works outside the points of its curve',
  severity: 'information',
  why: 'Between its points a curve can be read; beyond them the flow is a guess, here one on the safe side. Ask the pump maker for the missing point, or have the pump measured there.',
  inspect: "Look in the pump's flow sheet for a point at the pressure the pump works at.",
  remedy: 'Write the missing point into the curve, from the maker or from a measurement.',
  source: 'interpolation: Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238; outside the points common practice',
  check: ({ values, see, limit, compare }) => {
    const curve = values['fuel-system']?.pump?.['flow-at'] as Points | undefined;
    const pressure = see(pumpPressure);
    const [first, last] = [curve?.[0], curve?.at(-1)];
    if (!pressure || !first || !last || see(pumpDelivery)?.value === 0) return undefined;
    if (above(see(returnBackPressureShare), limit('return-share'))) return undefined;
    if (pressure.value > last[0].value) {
      const shown = compare(pressure, last[0].value);
      return {
        at: 'fuel-system.pump.flow-at',
        message: `The pump works at ${shown.value}, but its curve ends at ${shown.limit}: its flow there is taken to fall steeply.`,
        related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure the pump has to hold.' }],
      };
    }
    if (pressure.value >= first[0].value) return undefined;
    const shown = compare(pressure, first[0].value);
    return {
      at: 'fuel-system.pump.flow-at',
      message: `The pump works at ${shown.value}, but its curve begins at ${shown.limit}: below that no more flow is counted on.`,
      related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure the pump has to hold.' }],
    };
  },
};
