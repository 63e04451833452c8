import {
  bottleTime as bottleTimeOf,
  fuelWithNitrous,
  NITROUS_FUEL_RATIO,
  nitrousFlow as nitrousFlowOf,
  nitrousFuel as nitrousFuelOf,
  nitrousRetard as nitrousRetardOf,
  stoichiometricNitrousRatio,
} from '../engineering/nitrous.ts';
import { demandByPower } from './demand.ts';
import { chemistry, grade } from './fuel.ts';
import { choice, choose, field, figure } from './node.ts';
import { addedPower, hasNitrous } from './power.ts';

const HOME = ['stages.nitrous', 'stages'] as const;

export const nitrousKind = choice<'wet' | 'dry'>('stages.nitrous.kind', 'kind', {
  value: 'wet',
  because: 'common practice',
});

const stoichiometricGasoline = stoichiometricNitrousRatio({ carbon: 1, hydrogen: 1.87, oxygen: 0 });

export const nitrousFuel = figure({
  id: 'nitrous-fuel',
  symbol: 'm_f,n',
  name: 'fuel for the added power',
  dimension: 'mass-flow',
  formula: 'P_n * 0.60 lb/(hp h)',
  source: 'common practice, on the rich side; scaled to the fuel by stoichiometric ratio',
  home: HOME,
  when: hasNitrous,
  from: { addedPower, fuel: chemistry },
  compute: ({ addedPower, fuel }) =>
    nitrousFuelOf(addedPower) * (stoichiometricGasoline / stoichiometricNitrousRatio(fuel)),
});

export const nitrousRatio = field('stages.nitrous.ratio', 'r_n', {
  from: { fuel: chemistry },
  compute: ({ fuel }) => (NITROUS_FUEL_RATIO * stoichiometricNitrousRatio(fuel)) / stoichiometricGasoline,
  because: 'common practice 6:1 on gasoline, scaled to the fuel',
});

export const nitrousFlow = figure({
  id: 'nitrous-flow',
  symbol: 'm_n',
  name: 'nitrous flow',
  dimension: 'mass-flow',
  formula: 'm_f,n * r_n',
  source: 'mass balance',
  home: HOME,
  when: hasNitrous,
  from: { nitrousFuel, nitrousRatio },
  compute: ({ nitrousFuel, nitrousRatio }) => nitrousFlowOf(nitrousFuel, nitrousRatio),
});

export const nitrousStoichiometricRatio = figure({
  id: 'nitrous-stoichiometric-ratio',
  symbol: 'r_st',
  name: 'nitrous to fuel by chemistry',
  dimension: 'ratio-number',
  formula: '2 (C + H/4 - O/2) * 44.013 g/mol / M',
  source: 'N2O -> N2 + 1/2 O2, IUPAC atomic weights 2021',
  home: HOME,
  when: hasNitrous,
  from: { grade, fuel: chemistry },
  compute: ({ fuel }) => stoichiometricNitrousRatio(fuel),
});

export const nitrousShareOfChemistry = figure({
  id: 'nitrous-share-of-chemistry',
  symbol: 'r_n / r_st',
  name: 'ratio of nitrous to fuel over that of chemistry',
  dimension: 'ratio',
  formula: 'r_n / r_st',
  source: 'definition',
  home: HOME,
  notes: [
    'over 1 there is more oxygen than fuel; over 0.75 no room is left for a weak pump or a clogged jet: common practice',
  ],
  when: hasNitrous,
  from: { nitrousRatio, nitrousStoichiometricRatio },
  compute: ({ nitrousRatio, nitrousStoichiometricRatio }) => nitrousRatio / nitrousStoichiometricRatio,
});

export const nitrousRetard = figure({
  id: 'nitrous-retard',
  symbol: 'retard',
  name: 'timing to take out while nitrous flows',
  dimension: 'angle',
  formula: '2 deg per 50 hp',
  source: 'common practice, no source',
  home: ['stages.nitrous', 'stages', 'ignition'],
  notes: ['a first figure: too little retard breaks pistons; confirm on a dyno'],
  when: hasNitrous,
  from: { addedPower },
  compute: ({ addedPower }) => nitrousRetardOf(addedPower),
});

const bottle = field('stages.nitrous.bottle', 'm_bottle');

export const bottleTime = figure({
  id: 'bottle-time',
  symbol: 't_n',
  name: 'time a full bottle lasts',
  dimension: 'time',
  formula: '0.85 m_bottle / m_n',
  source: 'mass balance; usable share common practice, from memory',
  home: HOME,
  when: hasNitrous,
  from: { bottle, nitrousFlow },
  compute: ({ bottle, nitrousFlow }) => bottleTimeOf(bottle, nitrousFlow),
});

export const injectorDemandWithNitrous = figure({
  id: 'injector-demand',
  symbol: 'm_f,inj',
  name: 'fuel through the injectors with nitrous',
  dimension: 'mass-flow',
  formula: ({ nitrousKind }) => (nitrousKind === 'dry' ? 'm_f + m_f,n' : 'm_f'),
  source: 'mass balance; a wet system brings its own fuel',
  home: HOME,
  when: hasNitrous,
  from: {
    demandByPower,
    nitrousKind,
    more: choose({
      id: 'nitrous-fuel-through-injectors',
      from: { nitrousKind },
      among: ({ nitrousKind }) => (nitrousKind === 'dry' ? nitrousFuel : demandByPower),
    }),
  },
  compute: ({ nitrousKind, demandByPower, more }) => fuelWithNitrous(nitrousKind, demandByPower, more).injectors,
});

export const pumpDemandWithNitrous = figure({
  id: 'pump-demand',
  symbol: 'm_f,total',
  name: 'fuel from the pump with nitrous',
  dimension: 'mass-flow',
  formula: 'm_f + m_f,n',
  source: 'mass balance',
  home: HOME,
  when: hasNitrous,
  from: { demandByPower, nitrousFuel },
  compute: ({ demandByPower, nitrousFuel }) => fuelWithNitrous('dry', demandByPower, nitrousFuel).total,
});

/** Fuel through the injectors at full load, kg/s. */
export const injectorDemand = choose({
  id: 'injector-demand-in-all',
  from: { hasNitrous },
  among: ({ hasNitrous }) => (hasNitrous ? injectorDemandWithNitrous : demandByPower),
});

/** Fuel from the pump at full load, kg/s. */
export const pumpDemand = choose({
  id: 'pump-demand-in-all',
  from: { hasNitrous },
  among: ({ hasNitrous }) => (hasNitrous ? pumpDemandWithNitrous : demandByPower),
});
