import { airDensity } from '../engineering/air.ts';
import {
  type ClaimCondition,
  isExtrapolated,
  powerAtSite as powerAtSiteOf,
  standardConditions,
  standardPower as standardPowerOf,
} from '../engineering/claim.ts';
import { type Ambient, ambientOf } from '../engineering/day.ts';
import { ordinaryTemperature, siteDensity, sitePressure } from './air.ts';
import { choice, choose, fact, field, figure, optional } from './node.ts';
import { stagePower } from './power.ts';

const HOME = ['stages', 'stages.power', 'stages.power-condition'] as const;

const format = optional(field('format', 'format'));

/** What air the power of the stage holds for; a sheet of format 1 means it as driven. */
export const powerCondition = choice<ClaimCondition, { format: typeof format }>('stages.power-condition', 'condition', {
  from: { format },
  compute: () => 'as-driven',
  because: (values) =>
    values.format === 1
      ? 'format 1 means power as driven, in the air of the site'
      : 'not said; power as driven is the safe side: at the sea the engine then takes more',
});

/** Air at the site on an ordinary day. */
export const ordinaryAir = fact({
  id: 'ordinary-air',
  from: { sitePressure, ordinaryTemperature },
  compute: ({ sitePressure, ordinaryTemperature }) => ambientOf(sitePressure, ordinaryTemperature),
});

/** Total pressure, Pa, that SAE J1349 counts its dry pressure from; the older standard's air is dry. */
const STANDARD_TOTAL = 100e3;

const standardAir = fact({
  id: 'air-of-the-standard',
  from: { powerCondition },
  compute: ({ powerCondition }): Ambient => {
    if (powerCondition === 'older-standard') {
      const older = standardConditions['older-standard'];
      return { ...older, pressure: older.dryPressure };
    }
    return { ...standardConditions.standard, pressure: STANDARD_TOTAL };
  },
});

/** Air in which the power of the stage holds. */
export const claimAir = choose({
  id: 'air-of-the-claim',
  from: { powerCondition },
  among: ({ powerCondition }) => (powerCondition === 'as-driven' ? ordinaryAir : standardAir),
});

const standardDensity = fact({
  id: 'density-of-the-standard',
  from: { claimAir },
  compute: ({ claimAir }) => airDensity(claimAir.dryPressure, claimAir.temperature),
});

/** Density of the air in which the power of the stage holds, kg/m3. */
export const claimDensity = choose({
  id: 'density-of-the-claim',
  from: { powerCondition },
  among: ({ powerCondition }) => (powerCondition === 'as-driven' ? siteDensity : standardDensity),
});

const extrapolated = fact({
  id: 'is-standard-extrapolated',
  from: { ordinaryAir },
  compute: ({ ordinaryAir }) => isExtrapolated(ordinaryAir.pressure, ordinaryAir.temperature),
});

const EXTRAPOLATED =
  'extrapolated: the standard means its factor for 90 to 105 kPa and 15 to 35 degC, from memory' as const;

export const standardPower = figure({
  id: 'standard-power',
  symbol: 'P_0',
  name: 'power in the air of SAE J1349, 99 kPa dry and 25 degC',
  dimension: 'power',
  formula: ({ powerCondition }) => {
    if (powerCondition === 'standard') return 'P';
    if (powerCondition === 'older-standard') return 'P / 1.040';
    return 'P (1.18 (99 kPa / p_dry) (T / 298 K)^0.5 - 0.18)';
  },
  source: 'SAE J1349 (1990) and J607, read in secondary copies; relative humidity 30 %, common practice',
  home: HOME,
  notes: ({ powerCondition, extrapolated }) => [
    `the power of the sheet: ${powerCondition}`,
    ...(powerCondition === 'as-driven' && extrapolated ? [EXTRAPOLATED] : []),
  ],
  from: { stagePower, powerCondition, ordinaryAir, extrapolated },
  compute: ({ stagePower, powerCondition, ordinaryAir }) => standardPowerOf(stagePower, powerCondition, ordinaryAir),
});

const isOfStandard = fact({
  id: 'is-power-of-a-standard',
  from: { powerCondition },
  compute: ({ powerCondition }) => powerCondition !== 'as-driven',
});

export const powerAtSite = figure({
  id: 'power-at-site',
  symbol: 'P_site',
  name: 'power at the site on an ordinary day',
  dimension: 'power',
  formula: 'P_0 / (1.18 (99 kPa / p_dry) (T / 298 K)^0.5 - 0.18)',
  source: 'SAE J1349 (1990), read in secondary copies, backwards',
  home: HOME,
  notes: ({ powerCondition, extrapolated }) => [
    `the power of the sheet: ${powerCondition}`,
    ...(extrapolated ? [EXTRAPOLATED] : []),
  ],
  when: isOfStandard,
  from: { standardPower, ordinaryAir, powerCondition, extrapolated },
  compute: ({ standardPower, ordinaryAir }) => powerAtSiteOf(standardPower, 'standard', ordinaryAir),
});
