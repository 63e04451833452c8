import { trueVaporPressure } from '../engineering/boiling.ts';
import { suctionLineLoss } from '../engineering/lines.ts';
import { filterLoss } from '../engineering/network.ts';
import { suctionHeadAvailable, temperatureAtMargin } from '../engineering/suction.ts';
import { tankPressure, vaporDoubts, vaporPressure, volatility } from './boiling.ts';
import { fuelViscosity, hotFuelDensity } from './fuel.ts';
import { isExternal, preFilter, pumpHeight, suctionLine } from './fuel-network.ts';
import { field, figure } from './node.ts';
import { pumpFlow } from './supply.ts';

const HOME = [
  'fuel-system.pump',
  'fuel-system.suction',
  'fuel-system.pump.distance',
  'fuel-system.pump.height-above-outlet',
] as const;

export const suctionLoss = figure({
  id: 'suction-loss',
  symbol: 'dp_s',
  name: 'pressure lost between tank and pump',
  dimension: 'pressure',
  formula: '(f l/d + max(f, f_T) (30 n_90 + 16 n_45)) rho v^2 / 2 + pre-filter',
  source:
    'Darcy-Weisbach, Colebrook (1939); fittings Crane TP-410 (from memory, no edition at hand), K = 30 f_T, the safe side',
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
  formula: '(p_t - p_v - dp_s) / (rho g) - z',
  source: 'definition, ANSI/HI 9.6.1; tank nearly empty, fuel level at the outlet',
  home: HOME,
  notes: ({ vaporDoubts }) => vaporDoubts,
  when: isExternal,
  from: { tankPressure, vaporPressure, suctionLoss, hotFuelDensity, pumpHeight, vaporDoubts },
  compute: (v) =>
    suctionHeadAvailable(
      { tankPressure: v.tankPressure, density: v.hotFuelDensity, rise: v.pumpHeight, loss: v.suctionLoss },
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
  notes: ({ vaporDoubts }) => vaporDoubts,
  when: isExternal,
  from: { suctionHead, requiredHead, vaporDoubts },
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
  notes: ({ vaporDoubts }) => vaporDoubts,
  when: isExternal,
  from: { volatility, tankPressure, suctionLoss, hotFuelDensity, pumpHeight, requiredHead, vaporDoubts },
  compute: (v) => {
    const side = { tankPressure: v.tankPressure, density: v.hotFuelDensity, rise: v.pumpHeight, loss: v.suctionLoss };
    const pressureAt = (temperature: number) => trueVaporPressure(v.volatility, temperature);
    const { relation, temperature } = temperatureAtMargin(side, pressureAt, v.requiredHead, COLDEST, HOTTEST);
    if (relation === 'at') return temperature;
    throw new RangeError(
      relation === 'below'
        ? 'Line and height alone take all the suction head: the margin is gone with fuel of any temperature.'
        : 'The margin lasts for fuel of any temperature at which its vapor pressure is known.',
    );
  },
});

/** Temperatures, K, between which vapor pressures are known: -39 to 99 degC. */
const COLDEST = 234.15;
const HOTTEST = 372.15;
