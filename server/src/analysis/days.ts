import { type Ambient, airMassRatio, ambientOf, type Charger, chargeOf, keeps } from '../engineering/day.ts';
import { coldestDay, hottestDay, lowPressure, thinPressure } from './air.ts';
import { boost, compressorEfficiency, intercooling } from './boost.ts';
import { claimAir } from './claim.ts';
import { induction, isBoosted } from './induction.ts';
import { choose, fact, figure, type Node } from './node.ts';

/** Air of a day: one altitude, one temperature. */
export function airOf(id: string, pressure: Node<number>, temperature: Node<number>) {
  return fact({
    id,
    from: { pressure, temperature },
    compute: ({ pressure, temperature }) => ambientOf(pressure, temperature),
  });
}

const coldAir = airOf('air-of-the-coldest-day', lowPressure, coldestDay);
const hotAir = airOf('air-of-the-hottest-day', thinPressure, hottestDay);

export const keptByInduction = fact({
  id: 'kept-by-induction',
  from: { induction },
  compute: (v) => keeps(v.induction),
});

const blower = fact({
  id: 'charger',
  from: { boost, compressorEfficiency, intercooling },
  compute: ({ boost, compressorEfficiency, intercooling }): Charger => ({
    boost,
    efficiency: compressorEfficiency,
    effectiveness: intercooling,
  }),
});
const noBlower = fact({
  id: 'no-charger',
  from: {},
  compute: (): Charger => ({ boost: 0, efficiency: 1, effectiveness: 0 }),
});
export const charger = choose({
  id: 'charger-or-none',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? blower : noBlower),
});

/** The blower as far as the air of the day depends on it: one that keeps its pressure ratio heats every air alike. */
const shiftingCharger = choose({
  id: 'charger-of-which-the-air-depends',
  from: { keptByInduction },
  among: ({ keptByInduction }) => (keptByInduction === 'gauge-boost' ? blower : noBlower),
});

/** Air mass an engine takes on a day over that in the air of its claim. */
function shareOn(id: string, air: Node<Ambient>) {
  return fact({
    id,
    from: { keptByInduction, shiftingCharger, claimAir, air },
    compute: (v) => airMassRatio(v.keptByInduction, v.shiftingCharger, v.claimAir, v.air),
  });
}

/** Air behind the blower on a day; the air itself without one. */
export function chargeOn(id: string, air: Node<Ambient>) {
  return fact({
    id,
    from: { keptByInduction, charger, claimAir, air },
    compute: ({ keptByInduction, charger, claimAir, air }) => chargeOf(keptByInduction, charger, claimAir, air),
  });
}

const coldShare = shareOn('air-share-of-the-coldest-day', coldAir);
export const hotShare = shareOn('air-share-of-the-hottest-day', hotAir);

/** A day with its air and what is behind the blower. */
export const coldestAir = { air: coldAir, charge: chargeOn('charge-on-the-coldest-day', coldAir) } as const;
export const hottestAir = { air: hotAir, charge: chargeOn('charge-on-the-hottest-day', hotAir) } as const;

export const airShareColdest = figure({
  id: 'air-share-coldest-day',
  symbol: 'a_cold',
  name: 'air on the coldest, lowest day over that in the air of the claim',
  dimension: 'ratio-number',
  formula: 'p_dry / sqrt(T) of the charge, over that of the claim',
  source:
    'air term of SAE J1349 (1990), read in secondary copies; a blower on the crank keeps its pressure ratio, a turbo its boost: common practice',
  home: ['site', 'stages'],
  notes: ['relative humidity 30 % on every day'],
  from: { coldShare },
  compute: ({ coldShare }) => coldShare,
});
