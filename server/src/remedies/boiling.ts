import { hottestDay } from '../analysis/air.ts';
import { vaporKind, vaporShare } from '../analysis/boiling.ts';
import type { FigureNode } from '../analysis/node.ts';
import { field } from '../analysis/node.ts';
import { above, type Repair, type Situation } from '../checking/rule.ts';
import { PSI } from '../engineering/constants.ts';

const statedVaporPressure = field('fuel.vapor-pressure', 'RVP');
const statedHottestDay = field('site.hottest', 'T_day');

/**
 * Whether what the boiling of the fuel follows from is known and not only assumed: its vapor pressure, and how hot it gets
 * where that is not measured. What is missing is asked for.
 */
export function isBoilingKnown({ know, values }: Pick<Situation, 'know' | 'values'>): boolean {
  const isVolatilityKnown = know(vaporKind) === 'alcohol' || know(statedVaporPressure) !== undefined;
  const isHeatKnown = values.site?.['hottest-fuel'] !== undefined || know(statedHottestDay) !== undefined;
  return isVolatilityKnown && isHeatKnown;
}

/** By how much the vapor of the hottest fuel passes the pressure on it: it boils in the tank. */
export function boilsInTank({ see }: Pick<Situation, 'see'>) {
  return above(see(vaporShare), 1);
}

/** The same where it is known. */
export function surelyBoils(situation: Pick<Situation, 'see' | 'know' | 'values'>): boolean {
  return boilsInTank(situation) !== undefined && isBoilingKnown(situation);
}

/** Reid vapor pressures of summer gasoline that is sold, psi. ASTM D4814 and local rules. */
const SUMMER = [9, 7.8, 7] as const;

/** Fuel of the next lower volatility that is sold. */
export function lessVolatile({ values, know }: Pick<Situation, 'values' | 'know'>, shows: FigureNode): Repair[] {
  const own = values.fuel?.['vapor-pressure'];
  if (!own || know(vaporKind) === 'alcohol') return [];
  return SUMMER.filter((psi) => psi * PSI < own.value * (1 - 1e-3))
    .slice(-2)
    .map((psi) => ({
      title: `Use fuel with a Reid vapor pressure of ${psi} psi, if it is sold there`,
      set: { 'fuel.vapor-pressure': `${psi} psi` },
      shows,
    }));
}

/** The hottest day as text, with what it stands on. */
export function dayInWords({ know, showValue }: Pick<Situation, 'know' | 'showValue'>): string {
  const day = know(hottestDay);
  return day === undefined ? 'the hottest day' : `a day of ${showValue(day, 'temperature')}`;
}
