import { pumpDeliveryAlone } from '../../analysis/supply.ts';
import type { Draft, StageRule } from '../../checking/rule.ts';
import type { Points } from '../../units/quantity.ts';

const CURVES = ['fuel-system.pump.flow-at', 'fuel-system.pump.low-voltage.flow-at'] as const;

export const rule: StageRule = {
  id: 'fuel-supply/pump-curve-rises',
  title: 'The pump curve does not fall',
  severity: 'error',
  why: 'A pump gives less the higher the pressure, so its points run from low to high pressure with falling flow. Points out of order are usually swapped or mistyped: compare them with the flow sheet of the pump, since no figure of the fuel system can be computed until they are right.',
  inspect: "Compare the points with the pump's flow sheet: pressure first, then flow.",
  remedy: 'Put the points in order, low pressure first, and correct the mistyped one.',
  source: 'common practice; a positive-displacement or turbine pump leaks more at a higher pressure',
  check: ({ values, show, impossible }) => {
    const pump = values['fuel-system']?.pump;
    const curves = [pump?.['flow-at'], pump?.['low-voltage']?.['flow-at']] as (Points | undefined)[];
    return curves.flatMap((curve, index): Draft[] => {
      const at = CURVES[index] as (typeof CURVES)[number];
      const wrong = curve ? firstWrong(curve) : undefined;
      if (!curve || !wrong) return [];
      impossible(pumpDeliveryAlone);
      const [[fromPressure, fromFlow], [toPressure, toFlow]] = wrong;
      const sorted = curve.toSorted(([one], [other]) => one.value - other.value);
      return [
        {
          at,
          message:
            toPressure.value <= fromPressure.value
              ? `${show(toPressure)} comes after ${show(fromPressure)}; the points run from low to high pressure.`
              : `The flow rises from ${show(fromFlow)} at ${show(fromPressure)} to ${show(toFlow)} at ${show(toPressure)}; a pump gives less at a higher pressure.`,
          repairs: firstWrong(sorted)
            ? []
            : [
                {
                  title: 'Put the points in order of pressure',
                  set: { [at]: sorted.map(([pressure, flow]) => [pressure.text, flow.text]) },
                  safe: true,
                },
              ],
        },
      ];
    });
  },
};

/** The first two neighboring points that are out of order. */
function firstWrong(curve: Points): [Points[number], Points[number]] | undefined {
  for (const [index, point] of curve.entries()) {
    const before = curve[index - 1];
    if (before && (point[0].value <= before[0].value || point[1].value > before[1].value)) return [before, point];
  }
  return undefined;
}
