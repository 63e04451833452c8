import { siteAir, standardAir } from '../engineering/air.ts';
import { field, figure } from './node.ts';

const SITE = ['site'] as const;

export const altitude = field('site.altitude', 'H', { value: 0, because: 'sea level' });
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
  name: 'air density at the site on the hottest day',
  dimension: 'air-density',
  formula: 'p_a / (R T_day)',
  source: 'ISO 2533:1975 pressure, ideal gas; dry air',
  home: SITE,
  from: { altitude, hottestDay, sitePressure },
  compute: ({ altitude, hottestDay }) => siteAir(altitude, hottestDay).density,
});
