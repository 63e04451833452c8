import {
  boilingTemperature as boilingTemperatureOf,
  bypassHeat,
  tankHeating,
  trueVaporPressure,
  type Volatility,
} from '../engineering/boiling.ts';
import { vaporPressureDoubts } from '../engineering/suction.ts';
import { hottestDay, thinPressure } from './air.ts';
import { pumpCircuit } from './circuits.ts';
import { alcohol, hottestFuel, reidPressure } from './fuel.ts';
import { liftPumpCurrent, pumpArrangement, pumpQuantity } from './loads.ts';
import { choose, constant, fact, field, figure } from './node.ts';
import { hasReturn } from './regulator.ts';

const HOME = ['fuel.vapor-pressure', 'fuel', 'fuel-system.tank', 'fuel-system.pump', 'site'] as const;

const DOUBTS = {
  alcohol: 'how much of the vapor is alcohol is an estimate',
  'reid-pressure': 'the Reid vapor pressure is outside the range of the formula',
  temperature: 'the temperature is outside the range of the chart behind the formula, 0 to 140 degF',
} as const;

/** Share from which a fuel is the neat alcohol, which has a vapor pressure of its own. */
const NEAT = 0.99;

type Kind = 'gasoline' | 'blend' | 'alcohol';

/** By what the vapor pressure is worked out. */
export const vaporKind = fact({
  id: 'kind-of-vapor',
  from: { alcohol },
  compute: ({ alcohol: { ethanol, methanol } }): Kind => {
    if (Math.max(ethanol, methanol) >= NEAT) return 'alcohol';
    return ethanol + methanol > 0 ? 'blend' : 'gasoline';
  },
});

const ofAlcohol = fact({ id: 'reid-pressure-of-alcohol', from: {}, compute: () => 1 });

/** Reid vapor pressure where the vapor follows from it; a neat alcohol needs none. */
const usedReidPressure = choose({
  id: 'reid-pressure-used',
  from: { vaporKind },
  among: ({ vaporKind }) => (vaporKind === 'alcohol' ? ofAlcohol : reidPressure),
});

export const volatility = fact({
  id: 'volatility',
  from: { usedReidPressure, alcohol },
  compute: ({ usedReidPressure, alcohol }): Volatility => ({
    reidVaporPressure: usedReidPressure,
    ethanolShare: alcohol.ethanol,
    methanolShare: alcohol.methanol,
  }),
});

const FORMULAS: Readonly<Record<Kind, string>> = {
  gasoline: 'exp(A - B / T), A and B from RVP and distillation slope 3',
  blend: 'at 100 degF exp(A - B / T) of RVP; from there the alcohol by Antoine, the rest by exp(A - B / T)',
  alcohol: '10^(a - b / (T + c)), Antoine',
};
const AP42 = 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b';
const ANTOINE = 'Antoine constants of the NIST Chemistry WebBook, from memory';
const SOURCES: Readonly<Record<Kind, string>> = {
  gasoline: AP42,
  blend: `${AP42}; ${ANTOINE}; shares of the vapor by Margules, an estimate`,
  alcohol: ANTOINE,
};

/** What puts the vapor pressure of the hottest fuel in doubt. */
export const vaporDoubts = fact({
  id: 'doubts-about-vapor-pressure',
  from: { vaporKind, volatility, hottestFuel },
  compute: ({ vaporKind, volatility, hottestFuel }): string[] => {
    if (vaporKind === 'alcohol') return [];
    return vaporPressureDoubts({
      reidVaporPressure: volatility.reidVaporPressure,
      temperature: hottestFuel,
      alcoholShare: volatility.ethanolShare + volatility.methanolShare,
    }).map((doubt) => DOUBTS[doubt]);
  },
});

export const vaporPressure = figure({
  id: 'vapor-pressure',
  symbol: 'p_v',
  name: 'true vapor pressure of the hottest fuel',
  dimension: 'absolute-pressure',
  formula: ({ vaporKind }) => FORMULAS[vaporKind],
  source: ({ vaporKind }) => SOURCES[vaporKind],
  home: HOME,
  notes: ({ vaporDoubts }) => vaporDoubts,
  from: { volatility, hottestFuel, vaporKind, vaporDoubts },
  compute: ({ volatility, hottestFuel }) => trueVaporPressure(volatility, hottestFuel),
});

const capPressure = field('fuel-system.tank.cap-pressure', 'p_cap', { value: 0, because: 'a plain vent' });

export const tankPressure = figure({
  id: 'tank-pressure',
  symbol: 'p_t',
  name: 'pressure on the fuel in the tank',
  dimension: 'absolute-pressure',
  formula: 'p_a + p_cap',
  source: 'definition of gauge pressure',
  home: ['fuel-system.tank'],
  from: { thinPressure, capPressure },
  compute: ({ thinPressure, capPressure }) => thinPressure + capPressure,
});

export const boilingTemperature = figure({
  id: 'boiling-temperature',
  symbol: 'T_boil',
  name: 'temperature at which the fuel begins to boil in the tank',
  dimension: 'temperature',
  formula: 'solved: p_v(T) = p_t',
  source: ({ vaporKind }) => SOURCES[vaporKind],
  home: HOME,
  notes: ({ vaporKind }) => (vaporKind === 'blend' ? [DOUBTS.alcohol] : []),
  from: { volatility, tankPressure, vaporKind },
  compute: ({ volatility, tankPressure }) => boilingTemperatureOf(volatility, tankPressure),
});

export const vaporShare = figure({
  id: 'vapor-share',
  symbol: 's_v',
  name: 'vapor pressure of the hottest fuel over the pressure on it',
  dimension: 'ratio',
  formula: 'p_v / p_t',
  source: 'definition; at 100 % the fuel boils',
  home: ['fuel.vapor-pressure', 'fuel-system.tank'],
  from: { vaporPressure, tankPressure },
  compute: ({ vaporPressure, tankPressure }) => vaporPressure / tankPressure,
});

const pumpCurrent = field('fuel-system.pump.current', 'I_1');
const tankVolume = field('fuel-system.tank.capacity', 'V');

const heatOfBypass = constant({
  symbol: 'q',
  name: 'heat that comes back from the engine',
  value: bypassHeat.value,
  dimension: 'heat',
  assumed: bypassHeat.source,
});
const noHeat = constant({
  symbol: 'q',
  name: 'heat that comes back from the engine',
  value: 0,
  dimension: 'heat',
  assumed: 'nothing comes back',
});
const heatReturned = choose({
  id: 'heat-returned',
  from: { hasReturn },
  among: ({ hasReturn }) => (hasReturn ? heatOfBypass : noHeat),
});

/** Fuel in the tank after a day's driving on the hottest day. */
export const heatedFuel = figure({
  id: 'heated-fuel',
  symbol: 'T_f,day',
  name: 'fuel in the tank after a full day of driving',
  dimension: 'temperature',
  formula: 'T_day + (U_p (I_1 n_p + I_lift) + q) / (12 W/(m^2 K) * 5.5 V^(2/3))',
  source: 'common practice: heat of pump and return against what the tank gives to the air',
  home: ['fuel-system.tank', 'fuel-system.pump', 'site'],
  notes: ['an estimate for a steady day; a full tank takes hours to get there, a nearly empty one is hotter'],
  from: {
    hottestDay,
    volts: pumpCircuit.voltage,
    pumpCurrent,
    pumpQuantity,
    pumpArrangement,
    liftPumpCurrent,
    heatReturned,
    tankVolume,
  },
  compute: (v) => {
    const running = v.pumpArrangement === 'parallel' ? v.pumpQuantity : 1;
    const pump = v.volts * (v.pumpCurrent * running + v.liftPumpCurrent);
    return v.hottestDay + tankHeating({ pump, bypass: v.heatReturned, volume: v.tankVolume });
  },
});

export const heatedVaporShare = figure({
  id: 'heated-vapor-share',
  symbol: 's_v,day',
  name: 'vapor pressure of the fuel after a full day of driving over the pressure on it',
  dimension: 'ratio',
  formula: 'p_v(T_f,day) / p_t',
  source: ({ vaporKind }) => SOURCES[vaporKind],
  home: ['fuel-system.tank'],
  from: { volatility, heatedFuel, tankPressure, vaporKind },
  compute: ({ volatility, heatedFuel, tankPressure }) =>
    trueVaporPressure(volatility, Math.min(heatedFuel, HOTTEST_VAPOR)) / tankPressure,
});

/** Temperature, K, up to which vapor pressures are known: 100 degC, where any fuel that boils at all has long done so. */
const HOTTEST_VAPOR = 373.15;
