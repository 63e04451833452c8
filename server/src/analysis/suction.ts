import { alcoholVaporPressure } from '../engineering/fuel-properties.ts';
import { suctionLineLoss } from '../engineering/lines.ts';
import { filterLoss } from '../engineering/network.ts';
import {
  bubblePoint,
  gasolineVaporPressure,
  suctionHeadAvailable,
  temperatureAtMargin,
  vaporPressureDoubts,
} from '../engineering/suction.ts';
import { sitePressure } from './air.ts';
import { alcohol, fuelViscosity, hotFuelDensity, hottestFuel, reidPressure } from './fuel.ts';
import { isExternal, preFilter, pumpHeight, suctionLine } from './fuel-network.ts';
import { choose, fact, field, figure } from './node.ts';
import { pumpFlow } from './supply.ts';

const HOME = [
  'fuel-system.pump',
  'fuel-system.suction',
  'fuel-system.pump.distance',
  'fuel-system.pump.height-above-outlet',
] as const;

const DOUBTS = {
  alcohol: 'the formula is for gasoline without alcohol: with alcohol the real vapor pressure differs',
  'reid-pressure': 'the Reid vapor pressure is outside the range of the formula',
  temperature: 'the temperature is outside the range of the chart behind the formula, 0 to 140 degF',
} as const;

/** The alcohol of a fuel that is one, whose vapor pressure the gasoline formula does not give. */
const neatAlcohol = fact({
  id: 'neat-alcohol',
  from: { alcohol },
  compute: ({ alcohol }): 'ethanol' | 'methanol' | undefined => {
    if (alcohol.ethanol > 0.99) return 'ethanol';
    return alcohol.methanol > 0.99 ? 'methanol' : undefined;
  },
});

/** True vapor pressure, Pa, at a temperature in K. */
type VaporPressure = (temperature: number) => number;

const gasolineCurve = fact({
  id: 'vapor-pressure-of-gasoline',
  from: { reidPressure },
  compute:
    ({ reidPressure }): VaporPressure =>
    (temperature) =>
      gasolineVaporPressure(reidPressure, temperature),
});

const alcoholCurve = fact({
  id: 'vapor-pressure-of-alcohol',
  from: { neatAlcohol },
  compute:
    ({ neatAlcohol = 'ethanol' }): VaporPressure =>
    (temperature) =>
      alcoholVaporPressure(neatAlcohol, temperature),
});

/** The fuel's vapor pressure over temperature. */
const vaporCurve = choose({
  id: 'vapor-pressure-over-temperature',
  from: { neatAlcohol },
  among: ({ neatAlcohol }) => (neatAlcohol ? alcoholCurve : gasolineCurve),
});

const doubts = fact({
  id: 'doubts-about-vapor-pressure',
  from: { reidPressure, hottestFuel, alcohol },
  compute: ({ reidPressure, hottestFuel, alcohol }): string[] =>
    vaporPressureDoubts({
      reidVaporPressure: reidPressure,
      temperature: hottestFuel,
      alcoholShare: Math.min(1, alcohol.ethanol + alcohol.methanol),
    }).map((doubt) => DOUBTS[doubt]),
});
const noDoubts = fact({ id: 'no-doubts', from: {}, compute: (): string[] => [] });

/** What makes the vapor pressure doubtful, in words. */
export const vaporPressureNotes = choose({
  id: 'notes-on-vapor-pressure',
  from: { neatAlcohol },
  among: ({ neatAlcohol }) => (neatAlcohol ? noDoubts : doubts),
});

export const vaporPressure = figure({
  id: 'vapor-pressure',
  symbol: 'p_v',
  name: 'true vapor pressure of the hottest fuel',
  dimension: 'absolute-pressure',
  formula: ({ neatAlcohol }) =>
    neatAlcohol ? '10^(a - b / (T + c)), Antoine' : 'exp(A - B / T), A and B from RVP and distillation slope 3',
  source: ({ neatAlcohol }) =>
    neatAlcohol
      ? 'Antoine constants of the NIST Chemistry WebBook, from memory'
      : 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b',
  home: HOME,
  notes: ({ notes }) => notes,
  when: isExternal,
  from: { vaporCurve, hottestFuel, neatAlcohol, notes: vaporPressureNotes },
  compute: ({ vaporCurve, hottestFuel }) => vaporCurve(hottestFuel),
});

const isGasoline = fact({
  id: 'is-external-with-gasoline',
  from: { isExternal, neatAlcohol },
  compute: ({ isExternal, neatAlcohol }) => isExternal && neatAlcohol === undefined,
});

export const boilingTemperature = figure({
  id: 'boiling-temperature',
  symbol: 'T_boil',
  name: 'temperature at which the fuel begins to boil in the vented tank',
  dimension: 'temperature',
  formula: 'solved: p_v(T) = p_a',
  source: 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b',
  home: HOME,
  notes: ({ notes }) => notes,
  when: isGasoline,
  from: { reidPressure, sitePressure, notes: vaporPressureNotes },
  compute: ({ reidPressure, sitePressure }) => bubblePoint(reidPressure, sitePressure),
});

export const suctionLoss = figure({
  id: 'suction-loss',
  symbol: 'dp_s',
  name: 'pressure lost between tank and pump',
  dimension: 'pressure',
  formula: '(f l/d + max(f, f_T) (30 n_90 + 16 n_45)) rho v^2 / 2 + pre-filter',
  source: 'Darcy-Weisbach, Colebrook; fittings Crane TP-410, K = 30 f_T, the safe side',
  home: HOME,
  notes: ({ suctionLine }) => (suctionLine ? [] : ['no suction bore is given: the line is left out']),
  when: isExternal,
  from: { pumpFlow, hotFuelDensity, fuelViscosity, suctionLine, preFilter },
  compute: ({ pumpFlow, hotFuelDensity, fuelViscosity, suctionLine, preFilter }) => {
    const liquid = { density: hotFuelDensity, viscosity: fuelViscosity };
    const inLine = suctionLine ? suctionLineLoss(suctionLine, liquid, pumpFlow).friction : 0;
    return inLine + (preFilter ? filterLoss(preFilter, pumpFlow) : 0);
  },
});

export const suctionHead = figure({
  id: 'suction-head',
  symbol: 'NPSH_a',
  name: 'suction head available',
  dimension: 'length',
  formula: '(p_a - p_v - dp_s) / (rho g) - z',
  source: 'definition, ANSI/HI 9.6.1; tank nearly empty, fuel level at the outlet',
  home: HOME,
  notes: ({ notes }) => notes,
  when: isExternal,
  from: { sitePressure, vaporPressure, suctionLoss, hotFuelDensity, pumpHeight, notes: vaporPressureNotes },
  compute: (v) =>
    suctionHeadAvailable(
      { tankPressure: v.sitePressure, density: v.hotFuelDensity, rise: v.pumpHeight, loss: v.suctionLoss },
      v.vaporPressure,
    ),
});

const requiredHead = field('fuel-system.pump.required-suction-head', 'NPSH_r', {
  value: 1,
  because: 'common practice for small turbine and roller pumps, from memory',
});

export const suctionMargin = figure({
  id: 'suction-margin',
  symbol: 'dNPSH',
  name: 'suction margin on the hottest day',
  dimension: 'length',
  formula: 'NPSH_a - NPSH_r',
  source: 'definition, ANSI/HI 9.6.1',
  home: HOME,
  notes: ({ notes }) => notes,
  when: isExternal,
  from: { suctionHead, requiredHead, notes: vaporPressureNotes },
  compute: ({ suctionHead, requiredHead }) => suctionHead - requiredHead,
});

export const suctionLimitTemperature = figure({
  id: 'suction-limit-temperature',
  symbol: 'T_gone',
  name: 'fuel temperature at which the suction margin is gone',
  dimension: 'temperature',
  formula: 'solved: NPSH_a(T) = NPSH_r',
  source: 'vapor pressure as above; ANSI/HI 9.6.1',
  home: HOME,
  notes: ({ notes }) => notes,
  when: isExternal,
  from: { vaporCurve, sitePressure, suctionLoss, hotFuelDensity, pumpHeight, requiredHead, notes: vaporPressureNotes },
  compute: (v) =>
    temperatureAtMargin(
      { tankPressure: v.sitePressure, density: v.hotFuelDensity, rise: v.pumpHeight, loss: v.suctionLoss },
      v.vaporCurve,
      v.requiredHead,
    ).temperature,
});
