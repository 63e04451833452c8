import { pump as pumpCurves } from '../../analysis/fuel-network.ts';
import type { Repair, StageRule } from '../../checking/rule.ts';
import { crossingOf } from '../../engineering/pump.ts';
import type { Quantity } from '../../units/quantity.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-curves-cross',
  title: 'The pump gives more at less voltage',
  severity: 'warning',
  why: 'A pump turns slower on less voltage and gives less at every pressure. Where the curve at the lower voltage lies higher, the two are swapped, or one is of another pump, and the flow between them means nothing.',
  inspect: "Compare both curves with the pump's flow sheet: voltage, pressure, flow and units.",
  remedy: 'Swap the two voltages, or correct the curve that is wrong.',
  source: 'common practice: a motor turns slower on less voltage',
  check: ({ values, know, showValue }) => {
    const fields = values['fuel-system']?.pump;
    const curves = know(pumpCurves);
    if (!fields?.['low-voltage'] || !curves) return undefined;
    const pressure = crossingOf(curves);
    const [low, high] = curves.curves;
    if (pressure === undefined || !low || !high) return undefined;
    return {
      at: 'fuel-system.pump.low-voltage',
      message: `At ${showValue(pressure, 'pressure')} the curve for ${showValue(low.voltage, 'voltage')} gives more than that for ${showValue(high.voltage, 'voltage')}; a pump gives less on less voltage.`,
      related: [{ at: 'fuel-system.pump.flow-at', message: 'The other curve.' }],
      repairs: swapped(fields['rated-voltage'], fields['low-voltage'].voltage),
    };
  },
};

/** The two voltages the other way round, where the first curve is written for the higher one. */
function swapped(rated: Quantity | undefined, second: Quantity | undefined): Repair[] {
  if (!rated || !second || second.value > rated.value) return [];
  return [
    {
      title: `Swap the voltages: ${second.text} for the first curve`,
      set: {
        'fuel-system.pump.rated-voltage': second.text,
        'fuel-system.pump.low-voltage.voltage': rated.text,
      },
    },
  ];
}
