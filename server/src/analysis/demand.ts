import { engineVolumeFlow } from '../engineering/air.ts';
import {
  airDemand,
  brakeMeanEffectivePressure,
  brakeThermalEfficiency,
  defaultBsfc,
  demandDisagreement,
  fuelDemandByAir,
  fuelDemandByPower,
  impliedVolumetricEfficiency,
  inductionDefaults,
  torqueOfPower,
} from '../engineering/demand.ts';
import {
  bottleTime,
  fuelWithNitrous,
  NITROUS_FUEL_RATIO,
  nitrousFlow,
  nitrousFuel,
  nitrousRetard,
  stoichiometricNitrousRatio,
} from '../engineering/nitrous.ts';
import type { AirTerms } from './air.ts';
import type { Maybe } from './figure.ts';
import type { FuelTerms } from './fuel.ts';
import type { Worksheet } from './worksheet.ts';

const STAGE = ['stages'];

export type DemandTerms = { air: Maybe; engine: Maybe; injectors: Maybe; pump: Maybe };

/** Fuel demand by power and by air, what the power claim implies, and what nitrous adds. */
export function demandFigures(w: Worksheet, air: AirTerms, fuel: FuelTerms): DemandTerms {
  const defaults = inductionDefaults[air.induction];
  const power = w.given('stage.power', 'P');
  const displacement = w.given('engine.displacement', 'V_d');
  const speed = w.given('engine.peak-power-speed', 'N_p');
  const bsfc = w.given('stage.specific-consumption', 'BSFC', {
    value: defaultBsfc(air.induction, fuel.fuel).usual,
    because: `common practice for ${air.induction} induction, scaled to this fuel by stoichiometric ratio`,
  });
  const lambda = w.given('stage.lambda', 'lambda', {
    value: defaults.lambda.usual,
    because: `common practice for ${air.induction} induction at full load`,
  });
  const efficiency = w.given('engine.volumetric-efficiency', 'VE', {
    value: inductionDefaults.natural.volumetricEfficiency.usual,
    because: 'common practice',
  });
  const byPower = w.figure(
    {
      id: 'demand-by-power',
      symbol: 'm_f',
      name: 'fuel demand by power',
      dimension: 'mass-flow',
      formula: 'P * BSFC',
      source: 'definition of BSFC; Heywood, eq. 2.22',
      home: STAGE,
    },
    [power, bsfc],
    fuelDemandByPower,
  );
  const airByVolume = w.figure(
    {
      id: 'air-by-volume',
      symbol: 'm_a',
      name: 'air mass flow by displacement',
      dimension: 'mass-flow',
      formula: 'V_d * N_p / 2 * VE * rho_m',
      source: 'Heywood, eq. 2.27; trade form cfm = cid * rpm * VE / 3456',
      home: STAGE,
    },
    [displacement, speed, efficiency, air.chargeDensity],
    (swept, turns, share, density) => engineVolumeFlow(swept, turns, share) * density,
  );
  const byAir = w.figure(
    {
      id: 'demand-by-air',
      symbol: 'm_f,air',
      name: 'fuel demand by air',
      dimension: 'mass-flow',
      formula: 'm_a / (lambda * AFR_st)',
      source: 'Heywood, eq. 3.9',
      home: STAGE,
    },
    [airByVolume, lambda, fuel.stoichiometric],
    (flow, rich) => fuelDemandByAir(flow, rich, fuel.fuel),
  );
  w.figure(
    {
      id: 'demand-disagreement',
      symbol: 'd',
      name: 'demand by power over demand by air',
      dimension: 'ratio',
      formula: '(m_f - m_f,air) / mean',
      source: 'definition',
      home: STAGE,
      notes: ['a large figure means that the power claim, the displacement or the speed does not fit the others'],
    },
    [byPower, byAir],
    demandDisagreement,
  );
  const airFlow = w.figure(
    {
      id: 'air-demand',
      symbol: 'm_a,P',
      name: 'air the claimed power needs',
      dimension: 'mass-flow',
      formula: 'm_f * lambda * AFR_st',
      source: 'Heywood, eq. 3.9',
      home: [...STAGE, 'throttle-body'],
    },
    [byPower, lambda, fuel.stoichiometric],
    (flow, rich) => airDemand(flow, rich, fuel.fuel),
  );
  w.figure(
    {
      id: 'mean-effective-pressure',
      symbol: 'BMEP',
      name: 'brake mean effective pressure',
      dimension: 'pressure',
      formula: '2 P / (V_d N_p)',
      source: 'Heywood, eq. 2.19a',
      home: [...STAGE, 'engine'],
    },
    [power, displacement, speed],
    brakeMeanEffectivePressure,
  );
  w.figure(
    {
      id: 'torque',
      symbol: 'M',
      name: 'torque at peak-power speed',
      dimension: 'torque',
      formula: 'P / (2 pi N_p)',
      source: 'Heywood, eq. 2.13',
      home: [...STAGE, 'engine'],
    },
    [power, speed],
    torqueOfPower,
  );
  w.figure(
    {
      id: 'thermal-efficiency',
      symbol: 'eta_b',
      name: 'brake thermal efficiency the fuel demand implies',
      dimension: 'ratio',
      formula: '1 / (BSFC * LHV)',
      source: 'Heywood, eq. 2.24',
      home: STAGE,
    },
    [bsfc, fuel.grade],
    (consumption) => brakeThermalEfficiency(consumption, fuel.fuel),
  );
  w.figure(
    {
      id: 'implied-volumetric-efficiency',
      symbol: 'VE_P',
      name: 'volumetric efficiency the claim implies',
      dimension: 'ratio',
      formula: 'm_a,P / (V_d N_p / 2 * rho_m)',
      source: 'Heywood, eq. 2.27',
      home: [...STAGE, 'engine'],
      notes: ['referred to the density in the manifold'],
    },
    [airFlow, displacement, speed, air.chargeDensity],
    impliedVolumetricEfficiency,
  );
  return { air: airFlow, engine: byPower, ...nitrousFigures(w, byPower, fuel) };
}

function nitrousFigures(w: Worksheet, engine: Maybe, { fuel }: FuelTerms): Pick<DemandTerms, 'injectors' | 'pump'> {
  const nitrous = w.stage.stage.nitrous;
  if (!nitrous) return { injectors: engine, pump: engine };
  const home = ['stages.nitrous', 'stages'];
  const added = w.given('stage.nitrous.power', 'P_n');
  const kind = nitrous.kind ?? 'wet';
  const kindTerm = w.choice('stage.nitrous.kind', 'kind', kind, nitrous.kind ? undefined : 'common practice');
  const fuelFlow = w.figure(
    {
      id: 'nitrous-fuel',
      symbol: 'm_f,n',
      name: 'fuel for the added power',
      dimension: 'mass-flow',
      formula: 'P_n * 0.60 lb/(hp h)',
      source: 'common practice, on the rich side; scaled to the fuel by stoichiometric ratio',
      home,
    },
    [added],
    (power) => nitrousFuel(power) * (stoichiometricGasoline / stoichiometricNitrousRatio(fuel)),
  );
  const ratio = w.given('stage.nitrous.ratio', 'r_n', {
    value: (NITROUS_FUEL_RATIO * stoichiometricNitrousRatio(fuel)) / stoichiometricGasoline,
    because: 'common practice 6:1 on gasoline, scaled to the fuel',
  });
  const flow = w.figure(
    {
      id: 'nitrous-flow',
      symbol: 'm_n',
      name: 'nitrous flow',
      dimension: 'mass-flow',
      formula: 'm_f,n * r_n',
      source: 'mass balance',
      home,
    },
    [fuelFlow, ratio],
    nitrousFlow,
  );
  w.figure(
    {
      id: 'nitrous-stoichiometric-ratio',
      symbol: 'r_st',
      name: 'nitrous to fuel by chemistry',
      dimension: 'ratio-number',
      formula: '2 (C + H/4 - O/2) * 44.013 / M',
      source: 'N2O -> N2 + 1/2 O2, IUPAC atomic weights 2021',
      home,
    },
    [kindTerm],
    () => stoichiometricNitrousRatio(fuel),
  );
  w.figure(
    {
      id: 'nitrous-retard',
      symbol: 'retard',
      name: 'timing to take out while nitrous flows',
      dimension: 'angle',
      formula: '2 deg per 50 hp',
      source: 'common practice, no source',
      home: [...home, 'ignition'],
      notes: ['a first figure: too little retard breaks pistons; confirm on a dyno'],
    },
    [added],
    nitrousRetard,
  );
  w.figure(
    {
      id: 'bottle-time',
      symbol: 't_n',
      name: 'time a full bottle lasts',
      dimension: 'time',
      formula: '0.85 m_bottle / m_n',
      source: 'mass balance; usable share common practice, from memory',
      home,
    },
    [w.given('stage.nitrous.bottle', 'm_bottle'), flow],
    (charge, rate) => bottleTime(charge, rate),
  );
  const injectors = w.figure(
    {
      id: 'injector-demand',
      symbol: 'm_f,inj',
      name: 'fuel through the injectors with nitrous',
      dimension: 'mass-flow',
      formula: kind === 'dry' ? 'm_f + m_f,n' : 'm_f',
      source: 'mass balance; a wet system brings its own fuel',
      home,
    },
    [engine, fuelFlow, kindTerm],
    (base, more) => fuelWithNitrous(kind, base, more).injectors,
  );
  const pump = w.figure(
    {
      id: 'pump-demand',
      symbol: 'm_f,total',
      name: 'fuel from the pump with nitrous',
      dimension: 'mass-flow',
      formula: 'm_f + m_f,n',
      source: 'mass balance',
      home,
    },
    [engine, fuelFlow, kindTerm],
    (base, more) => fuelWithNitrous(kind, base, more).total,
  );
  return { injectors, pump };
}

const stoichiometricGasoline = stoichiometricNitrousRatio({ carbon: 1, hydrogen: 1.87, oxygen: 0 });
