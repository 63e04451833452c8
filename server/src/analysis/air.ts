import { airDensity, standardAir } from '../engineering/air.ts';
import { choose, fact, field, figure, given } from './node.ts';

const SITE = ['site'] as const;

export const altitude = field('site.altitude', 'H', { value: 0, because: 'sea level' });
/** The vehicle may go down to the sea unless the sheet says how far. */
export const lowestAltitude = field('site.lowest-altitude', 'H_low', {
  from: { altitude },
  compute: ({ altitude }) => Math.min(0, altitude),
  because: 'not said: the vehicle may go down to the sea',
});
const highestAltitude = field('site.highest-altitude', 'H_high');
export const coldestDay = field('site.coldest', 'T_cold', {
  value: 273.15,
  because: 'common practice: a morning of 0 degC',
});
export const hottestDay = field('site.hottest', 'T_day', { value: 308.15, because: 'common practice: a 35 degC day' });

export const sitePressure = figure({
  id: 'site-pressure',
  symbol: 'p_a',
  name: 'air pressure at the site',
  dimension: 'absolute-pressure',
  formula: '101.325 kPa * (1 - 0.0065 K/m * H / 288.15 K)^5.25588',
  source: 'ISO 2533:1975',
  home: SITE,
  from: { altitude },
  compute: ({ altitude }) => standardAir(altitude).pressure,
});

export const lowPressure = figure({
  id: 'low-site-pressure',
  symbol: 'p_low',
  name: 'air pressure at the lowest altitude',
  dimension: 'absolute-pressure',
  formula: '101.325 kPa * (1 - 0.0065 K/m * H_low / 288.15 K)^5.25588',
  source: 'ISO 2533:1975',
  home: SITE,
  from: { lowestAltitude },
  compute: ({ lowestAltitude }) => standardAir(lowestAltitude).pressure,
});

const isHigherKnown = given('site.highest-altitude');

export const highPressure = figure({
  id: 'high-site-pressure',
  symbol: 'p_high',
  name: 'air pressure at the highest altitude',
  dimension: 'absolute-pressure',
  formula: '101.325 kPa * (1 - 0.0065 K/m * H_high / 288.15 K)^5.25588',
  source: 'ISO 2533:1975',
  home: SITE,
  when: isHigherKnown,
  from: { highestAltitude },
  compute: ({ highestAltitude }) => standardAir(highestAltitude).pressure,
});

/** Pressure of the thinnest air the vehicle meets, Pa: at the highest altitude, else at that of the site. */
export const thinPressure = choose({
  id: 'thin-pressure',
  from: { isHigherKnown },
  among: ({ isHigherKnown }) => (isHigherKnown ? highPressure : sitePressure),
});

/** Temperature of the standard atmosphere at the site, K: an ordinary day. */
export const ordinaryTemperature = fact({
  id: 'ordinary-temperature',
  from: { altitude },
  compute: ({ altitude }) => standardAir(altitude).temperature,
});

export const siteDensity = figure({
  id: 'site-density',
  symbol: 'rho_a',
  name: 'air density at the site on a standard day',
  dimension: 'air-density',
  formula: 'p_a / (R T_standard(H))',
  source: 'ISO 2533:1975',
  home: SITE,
  from: { altitude, sitePressure },
  compute: ({ altitude }) => standardAir(altitude).density,
});

export const hotDayDensity = figure({
  id: 'hot-day-density',
  symbol: 'rho_hot',
  name: 'air density at the highest altitude on the hottest day',
  dimension: 'air-density',
  formula: 'p / (R T_day)',
  source: 'ISO 2533:1975 pressure, ideal gas; dry air',
  home: SITE,
  from: { thinPressure, hottestDay },
  compute: ({ thinPressure, hottestDay }) => airDensity(thinPressure, hottestDay),
});
