import type { Estimate } from '../../analysis/figure.ts';
import { injectorFlow } from '../../analysis/full-load-injection.ts';
import { railPressureSet } from '../../analysis/regulator.ts';
import { pumpOutletPressure } from '../../analysis/supply.ts';
import { above, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { settingFarOver, usualSettings } from '../../remedies/regulator-setting.ts';
import { LEAST_RELIEF, reliefFor, workingPressure } from '../../remedies/relief.ts';
import type { Quantity } from '../../units/quantity.ts';

/** How far a regulator may be set down before the injectors no longer spray as they should. Common practice, from memory. */
const LOWEST = 0.65;

export const rule: StageRule = {
  id: 'fuel-supply/relief-under-rail',
  title: "The pump's relief valve opens below the working pressure",
  severity: 'error',
  capacity: true,
  why: 'Once the relief valve opens, the fuel runs round inside the pump and not to the engine: the rail never reaches the set pressure, however large the pump is. With boost on top of the setting this shows only at full power, as a lean engine.',
  inspect:
    'Relief pressure in the flow sheet of the pump. On the car, a rail that stops rising below its setting while the return line stays dry is an open relief valve.',
  remedy:
    'Fit a pump made for this pressure. Setting the regulator down helps only where the injectors still spray as they should.',
  source: 'pressure balance; common practice',
  check: (situation) => {
    const { values, see, compare } = situation;
    const relief = values['fuel-system']?.pump?.['relief-pressure'];
    const needed = workingPressure([see(pumpOutletPressure), see(railPressureSet)]);
    const miss = relief && above(needed, relief.value);
    if (!needed || !miss) return undefined;
    const shown = compare(needed, relief.value);
    const better = reliefFor(needed.value, relief);
    const larger: Repair = {
      title: `Fit a pump whose relief valve opens at ${better}`,
      set: { 'fuel-system.pump.relief-pressure': better },
    };
    return {
      at: 'fuel-system.pump.relief-pressure',
      message: `The pump works at ${shown.value} at full power, but its relief valve opens at ${shown.limit}.`,
      related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
      ...miss,
      repairs: settingFarOver(values)
        ? [...lowerSetting(situation, relief, needed), larger]
        : [larger, ...lowerSetting(situation, relief, needed)],
    };
  },
};

/** A usual setting under which the relief valve keeps room, while the injectors still spray as they should. */
function lowerSetting({ values }: Situation, relief: Quantity, needed: Estimate): Repair[] {
  const setting = values['fuel-system']?.regulator?.pressure;
  if (!setting) return [];
  const most = relief.value / LEAST_RELIEF - (needed.value - setting.value);
  const lower = usualSettings(values).filter(({ value }) => value <= most && value >= setting.value * LOWEST);
  return lower.slice(0, 1).map(({ text }) => ({
    title: `Set the regulator to ${text}`,
    set: { 'fuel-system.regulator.pressure': text },
    shows: injectorFlow,
  }));
}
