import { notNegative, positive, said, within } from './bounds.ts';
import { ZERO_CELSIUS } from './constants.ts';
import { alcoholVaporPressure } from './fuel-properties.ts';
import { findRoot } from './roots.ts';
import { gasolineVaporPressure } from './suction.ts';

/** What the vapor pressure of a fuel follows from: Reid vapor pressure, Pa, and shares of alcohol by volume. */
export type Volatility = {
  readonly reidVaporPressure: number;
  readonly ethanolShare: number;
  readonly methanolShare: number;
};

type Alcohol = 'ethanol' | 'methanol';

/** Temperature of the Reid test, 100 degF, K. */
const REID_TEMPERATURE = 310.928;

/** Share from which a fuel is taken for the neat alcohol: what the Antoine line is for. */
const NEAT = 0.99;

/** Liquid density at 15 degC over molar mass, kmol/m3: alcohols; gasoline of 745 kg/m3 and 105 kg/kmol (from memory). */
const molarDensity = { ethanol: 793.5 / 46.068, methanol: 795.7 / 32.042, gasoline: 745 / 105 } as const;

/**
 * Margules constant of an alcohol in gasoline: how much more readily few molecules of it escape than many. An estimate:
 * ln of 7 to 10, the activity coefficients that put a blend's azeotrope where it is seen; from memory.
 */
const margules = { ethanol: 2, methanol: 2.3 } as const;

/** Pressures, Pa, of what evaporates from a fuel. */
export type VaporParts = { readonly hydrocarbon: number; readonly ethanol: number; readonly methanol: number };

/**
 * Partial pressures, Pa, over a fuel at a temperature, K. Hydrocarbons by EPA AP-42 ch. 7.1 from the Reid vapor pressure;
 * neat ethanol and methanol by Antoine's equation. A blend's pressure at 100 degF is AP-42's for the blend's own Reid
 * vapor pressure; the alcohol's part of it (two-suffix Margules, an estimate) then follows the alcohol's line and the rest
 * the gasoline's. @throws RangeError outside -40 to 100 degC, for a share not from 0 to 1, or a Reid pressure not above zero
 */
export function vaporParts(fuel: Volatility, temperature: number): VaporParts {
  within(temperature, ZERO_CELSIUS - 40, ZERO_CELSIUS + 100, 'The fuel temperature', 'temperature');
  within(fuel.ethanolShare, 0, 1, 'The share of ethanol');
  within(fuel.methanolShare, 0, 1, 'The share of methanol');
  const none = { hydrocarbon: 0, ethanol: 0, methanol: 0 };
  if (fuel.ethanolShare >= NEAT) return { ...none, ethanol: alcoholVaporPressure('ethanol', temperature) };
  if (fuel.methanolShare >= NEAT) return { ...none, methanol: alcoholVaporPressure('methanol', temperature) };

  const whole = gasolineVaporPressure(fuel.reidVaporPressure, REID_TEMPERATURE);
  const ethanol = alcoholPart(fuel, 'ethanol');
  const methanol = alcoholPart(fuel, 'methanol');
  const scale = ethanol + methanol > whole ? whole / (ethanol + methanol) : 1;
  const rise = (alcohol: Alcohol) =>
    alcoholVaporPressure(alcohol, temperature) / alcoholVaporPressure(alcohol, REID_TEMPERATURE);
  const hydrocarbonShare = 1 - ((ethanol + methanol) * scale) / whole;
  return {
    hydrocarbon: hydrocarbonShare * gasolineVaporPressure(fuel.reidVaporPressure, temperature),
    ethanol: ethanol * scale * rise('ethanol'),
    methanol: methanol * scale * rise('methanol'),
  };
}

/** Partial pressure, Pa, of an alcohol over a blend at 100 degF: x gamma p_sat, ln gamma = A (1 - x)^2. */
function alcoholPart(fuel: Volatility, alcohol: Alcohol): number {
  const hydrocarbon = molarDensity.gasoline * Math.max(0, 1 - fuel.ethanolShare - fuel.methanolShare);
  const ethanol = molarDensity.ethanol * fuel.ethanolShare;
  const methanol = molarDensity.methanol * fuel.methanolShare;
  const share = (alcohol === 'ethanol' ? ethanol : methanol) / (hydrocarbon + ethanol + methanol);
  return share * Math.exp(margules[alcohol] * (1 - share) ** 2) * alcoholVaporPressure(alcohol, REID_TEMPERATURE);
}

/** True vapor pressure, Pa, of a fuel at a temperature, K: the sum of its `vaporParts`. @throws RangeError as they do */
export function trueVaporPressure(fuel: Volatility, temperature: number): number {
  const { hydrocarbon, ethanol, methanol } = vaporParts(fuel, temperature);
  return hydrocarbon + ethanol + methanol;
}

/**
 * Temperature, K, at which a fuel boils under an absolute pressure, Pa: `trueVaporPressure` solved. With a vented tank the
 * pressure is the atmosphere's, with a pressure cap that and the cap's.
 * @throws RangeError for a fuel that boils below -40 or not yet at 100 degC, or as `trueVaporPressure`
 */
export function boilingTemperature(fuel: Volatility, pressure: number): number {
  positive(pressure, 'The absolute pressure');
  const excess = (temperature: number) => Math.log(trueVaporPressure(fuel, temperature) / pressure);
  const [coldest, hottest] = [ZERO_CELSIUS - 40, ZERO_CELSIUS + 100];
  if (excess(coldest) > 0 || excess(hottest) < 0) {
    throw new RangeError(
      `Under ${said(pressure, 'absolute-pressure')} the fuel boils below ${said(coldest, 'temperature')} or not yet at ${said(hottest, 'temperature')}, where its vapor pressure is not known.`,
    );
  }
  return findRoot(excess, coldest, hottest, 1e-6);
}

/** Heat, W, that fuel led past the hot engine and back brings into the tank. */
export const bypassHeat = { value: 150, source: 'common practice: a bypass or rail at the engine' } as const;

/** Heat a tank gives to the air, W/(m2 K). */
const heatTransfer = { value: 12, source: 'common practice: bare steel under a moving car' } as const;

/** Surface of a tank over its volume to the power 2/3; a cube has 6, a sphere 4.84. */
const tankSurface = 5.5;

/**
 * Rise, K, of a tank's fuel over the air in a day's driving: heat / (12 W/m2K * 5.5 V^(2/3)). The heat is the pump's
 * electrical power and, where the fuel passes the engine on its way back, `bypassHeat`, W; V the tank's volume, m3. Steady
 * state, a full day. Common practice. @throws RangeError for a negative heat or a volume not above zero
 */
export function tankHeating(heat: { pump: number; bypass: number; volume: number }): number {
  const power = notNegative(heat.pump, "The pump's power") + notNegative(heat.bypass, 'The heat of the bypass');
  return power / (heatTransfer.value * tankSurface * positive(heat.volume, "The tank's volume") ** (2 / 3));
}

/**
 * Molar mass, kg/kmol, times stoichiometric air/fuel ratio of what evaporates: gasoline's light ends (66, from memory: AP-42
 * ch. 7.1 gives 62 to 68; ratio of butane and pentane 15.4), ethanol, methanol.
 */
const airBurned = { hydrocarbon: 66 * 15.4, ethanol: 46.068 * 8.98, methanol: 32.042 * 6.46 } as const;

const airMolarMass = 28.9644;

/**
 * Richest equivalence ratio (fuel over what the air can burn) of the vapor over a cold fuel at a temperature, K, in air of
 * a pressure, Pa: what there is to light at a cold start however much is injected. Under `leanStart` nothing lights. It
 * tells of neat alcohols; a blend's light ends are soon used up, so a blend is judged by the class for the season
 * (`e85ClassFor`). Source: Dalton's law with `vaporParts`. @throws RangeError as `vaporParts`, or where the fuel boils
 */
export function coldVaporRatio(fuel: Volatility, temperature: number, pressure: number): number {
  const parts = vaporParts(fuel, temperature);
  const air = positive(pressure, 'The air pressure') - parts.hydrocarbon - parts.ethanol - parts.methanol;
  if (air <= 0) throw new RangeError('The fuel boils: no air is left over it.');
  const burned =
    parts.hydrocarbon * airBurned.hydrocarbon + parts.ethanol * airBurned.ethanol + parts.methanol * airBurned.methanol;
  return burned / (air * airMolarMass);
}

/** Equivalence ratio of the vapor under which a cold engine does not light. */
export const leanStart = {
  value: 0.5,
  source: 'lower flammability limits over stoichiometric: ethanol 3.3 of 6.5 %, methanol 6.0 of 12.3 %, from memory',
} as const;
