import { coldVaporRatio as coldVaporRatioOf } from '../engineering/boiling.ts';
import { e85ClassFor, e85ReidVaporPressures } from '../engineering/reid-pressure.ts';
import { coldestDay, lowPressure } from './air.ts';
import { vaporKind, volatility } from './boiling.ts';
import { alcohol } from './fuel.ts';
import { fact, figure } from './node.ts';

const isNeatAlcohol = fact({
  id: 'is-neat-alcohol',
  from: { vaporKind },
  compute: ({ vaporKind }) => vaporKind === 'alcohol',
});

/** Share of ethanol by volume from which a blend is sold by the classes of E85. ASTM D5798: 51 to 83 %. */
const CLASSED = 0.51;

/** Whether the fuel is sold by season classes of its own. */
const isClassed = fact({
  id: 'is-sold-by-class',
  from: { alcohol, vaporKind },
  compute: ({ alcohol, vaporKind }) => vaporKind === 'blend' && alcohol.ethanol >= CLASSED,
});

export const coldVaporRatio = figure({
  id: 'cold-vapor-ratio',
  symbol: 'phi_cold',
  name: 'vapor there is to light on the coldest day over what the air can burn',
  dimension: 'ratio-number',
  formula: 'p_v M AFR_st / ((p_low - p_v) M_air)',
  source: 'Dalton; vapor pressure by Antoine, constants of the NIST Chemistry WebBook, from memory',
  home: ['fuel.grade', 'fuel'],
  notes: ['however much is injected, no more than this evaporates in a cold engine'],
  when: isNeatAlcohol,
  from: { volatility, coldestDay, lowPressure },
  compute: ({ volatility, coldestDay, lowPressure }) => coldVaporRatioOf(volatility, coldestDay, lowPressure),
});

export const winterVaporPressure = figure({
  id: 'winter-vapor-pressure',
  symbol: 'RVP_cold',
  name: 'least Reid vapor pressure of the fuel sold for the coldest day',
  dimension: 'absolute-pressure',
  formula: 'of the class for T_cold: 1 above 5 degC, 2 above -5 degC, 3 above -15 degC, else 4',
  source: 'ASTM D5798-15, read in the US DOE Alternative Fuels Data Center; temperatures of the classes from memory',
  home: ['fuel.vapor-pressure'],
  when: isClassed,
  from: { coldestDay },
  compute: ({ coldestDay }) => e85ReidVaporPressures[e85ClassFor(coldestDay)].low,
});
