import { railPressureSet } from '../../analysis/regulator.ts';
import { pumpOutletPressure } from '../../analysis/supply.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { LEAST_RELIEF, reliefFor, workingPressure } from '../../remedies/relief.ts';

export const rule: StageRule = {
  id: 'fuel-supply/relief-near-rail',
  title: "The pump's relief valve opens right above the working pressure",
  severity: 'warning',
  capacity: true,
  why: 'A relief valve does not open at one pressure: it dribbles well before, and more as its spring tires. What dribbles runs round inside the pump, heats the fuel and is missing at full power.',
  inspect: 'Relief pressure in the flow sheet of the pump, and the pressure at the pump outlet at full load.',
  remedy: 'Fit a pump whose relief valve opens at least a tenth above the highest working pressure.',
  source: 'common practice: a tenth above the working pressure',
  check: ({ values, see, compare }) => {
    const relief = values['fuel-system']?.pump?.['relief-pressure'];
    const isItsBypass = values['fuel-system']?.regulator?.style === 'dead-head';
    const needed = workingPressure([see(pumpOutletPressure), see(railPressureSet)]);
    if (isItsBypass || !relief || !needed || relief.value < needed.value) return undefined;
    const miss = below(relief, needed.value * LEAST_RELIEF);
    if (!miss) return undefined;
    const shown = compare(relief, needed.value);
    const better = reliefFor(needed.value, relief);
    return {
      at: 'fuel-system.pump.relief-pressure',
      message: `The relief valve opens at ${shown.value}, right above the ${shown.limit} the pump works at.`,
      related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
      ...miss,
      repairs: [
        {
          title: `Fit a pump whose relief valve opens at ${better}`,
          set: { 'fuel-system.pump.relief-pressure': better },
        },
      ],
    };
  },
};
