import { alcoholVaporPressure } from '../engineering/fuel-properties.ts';
import { lineLoss } from '../engineering/lines.ts';
import { filterLoss } from '../engineering/network.ts';
import {
  bubblePoint,
  gasolineVaporPressure,
  suctionHeadAvailable,
  temperatureAtMargin,
  vaporPressureDoubts,
} from '../engineering/suction.ts';
import type { AirTerms } from './air.ts';
import { isKnown, type Maybe } from './figure.ts';
import type { FuelTerms } from './fuel.ts';
import { filterOf, lineOf, suctionFields } from './fuel-network.ts';
import type { SupplyTerms } from './supply.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = [
  'fuel-system.pump',
  'fuel-system.suction',
  'fuel-system.pump.distance',
  'fuel-system.pump.height-above-outlet',
];

const DOUBTS = {
  alcohol: 'the formula is for gasoline without alcohol: with alcohol the real vapor pressure differs',
  'reid-pressure': 'the Reid vapor pressure is outside the range of the formula',
  temperature: 'the temperature is outside the range of the chart behind the formula, 0 to 140 degF',
} as const;

/** Suction head of an external pump on the hottest day, and the fuel temperature at which it is gone. */
export function suctionFigures(w: Worksheet, air: AirTerms, fuel: FuelTerms, supply: SupplyTerms): void {
  const pump = w.stage.values['fuel-system']?.pump;
  if (pump?.placement !== 'external') return;
  const reid = w.given('fuel.vapor-pressure', 'RVP', otherwiseReid(fuel));
  const share = fuel.fuel.ethanolShare + fuel.fuel.methanolShare;
  const doubts =
    isKnown(reid) && isKnown(fuel.hottestFuel)
      ? vaporPressureDoubts({
          reidVaporPressure: reid.value,
          temperature: fuel.hottestFuel.value,
          alcoholShare: Math.min(1, share),
        })
      : [];
  const alcohol = neatAlcohol(fuel);
  const notes = alcohol ? [] : doubts.map((doubt) => DOUBTS[doubt]);
  const vapor = w.figure(
    {
      id: 'vapor-pressure',
      symbol: 'p_v',
      name: 'true vapor pressure of the hottest fuel',
      dimension: 'absolute-pressure',
      formula: alcohol ? '10^(a - b / (T + c)), Antoine' : 'exp(A - B / T), A and B from RVP and distillation slope 3',
      source: alcohol
        ? 'Antoine constants of the NIST Chemistry WebBook, from memory'
        : 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b',
      home: HOME,
      notes,
    },
    [reid, fuel.hottestFuel],
    (pressure, temperature) => vaporPressure(fuel, pressure, temperature),
  );
  if (!alcohol) {
    w.figure(
      {
        id: 'boiling-temperature',
        symbol: 'T_boil',
        name: 'temperature at which the fuel begins to boil in the vented tank',
        dimension: 'temperature',
        formula: 'solved: p_v(T) = p_a',
        source: 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b',
        home: HOME,
        notes,
      },
      [reid, air.ambient],
      (pressure, ambient) => bubblePoint(pressure, ambient),
    );
  }
  const rise = w.given('fuel-system.pump.height-above-outlet', 'z', {
    value: 0,
    because: 'level with the tank outlet',
  });
  const loss = suctionLoss(w, fuel, supply);
  const head = w.figure(
    {
      id: 'suction-head',
      symbol: 'NPSH_a',
      name: 'suction head available',
      dimension: 'length',
      formula: '(p_a - p_v - dp_s) / (rho g) - z',
      source: 'definition, ANSI/HI 9.6.1; tank nearly empty, fuel level at the outlet',
      home: HOME,
      notes,
    },
    [air.ambient, vapor, loss, fuel.hotDensity, rise],
    (ambient, vaporPressure, lost, density, height) =>
      suctionHeadAvailable({ tankPressure: ambient, density, rise: height, loss: lost }, vaporPressure),
  );
  const needed = w.given('fuel-system.pump.required-suction-head', 'NPSH_r', {
    value: 1,
    because: 'common practice for small turbine and roller pumps, from memory',
  });
  w.figure(
    {
      id: 'suction-margin',
      symbol: 'dNPSH',
      name: 'suction margin on the hottest day',
      dimension: 'length',
      formula: 'NPSH_a - NPSH_r',
      source: 'definition, ANSI/HI 9.6.1',
      home: HOME,
      notes,
    },
    [head, needed],
    (available, least) => available - least,
  );
  w.figure(
    {
      id: 'suction-limit-temperature',
      symbol: 'T_gone',
      name: 'fuel temperature at which the suction margin is gone',
      dimension: 'temperature',
      formula: 'solved: NPSH_a(T) = NPSH_r',
      source: 'vapor pressure as above; ANSI/HI 9.6.1',
      home: HOME,
      notes,
    },
    [reid, air.ambient, loss, fuel.hotDensity, rise, needed],
    (pressure, ambient, lost, density, height, least) =>
      temperatureAtMargin(
        { tankPressure: ambient, density, rise: height, loss: lost },
        (temperature) => vaporPressure(fuel, pressure, temperature),
        least,
      ).temperature,
  );
}

/** The alcohol of a fuel that is one, whose vapor pressure the gasoline formula does not give. */
function neatAlcohol({ fuel }: FuelTerms): 'ethanol' | 'methanol' | undefined {
  if (fuel.ethanolShare > 0.99) return 'ethanol';
  return fuel.methanolShare > 0.99 ? 'methanol' : undefined;
}

function vaporPressure(fuel: FuelTerms, reidPressure: number, temperature: number): number {
  const alcohol = neatAlcohol(fuel);
  return alcohol ? alcoholVaporPressure(alcohol, temperature) : gasolineVaporPressure(reidPressure, temperature);
}

function otherwiseReid({ fuel }: FuelTerms) {
  return { value: fuel.reidVaporPressure ?? 62e3, because: 'ASTM D4814 summer class A with the alcohol allowance' };
}

function suctionLoss(w: Worksheet, fuel: FuelTerms, { delivery }: SupplyTerms): Maybe {
  const fields = w.stage.values['fuel-system'];
  const pick = (quantity: Parameters<Worksheet['read']>[0]) => w.read(quantity);
  const line = lineOf(suctionFields(fields?.suction, fields?.pump), pick, 0);
  const filter = filterOf(fields?.['pre-filter'], 'quadratic', pick);
  const bore = w.given('fuel-system.suction.inside-diameter', 'd_s');
  const terms = [
    bore,
    w.given('fuel-system.pump.distance', 'l_s'),
    w.given('fuel-system.pre-filter.loss', 'dp_pre'),
  ].filter(isKnown);
  return w.figure(
    {
      id: 'suction-loss',
      symbol: 'dp_s',
      name: 'pressure lost between tank and pump',
      dimension: 'pressure',
      formula: 'f (l/d + 30 n_90 + 16 n_45) rho v^2 / 2 + pre-filter',
      source: 'Darcy-Weisbach, Colebrook; fittings Crane TP-410, L/D with the actual friction factor',
      home: HOME,
      notes: line ? [] : ['no suction bore is given: the line is left out'],
    },
    [delivery, fuel.hotDensity, fuel.viscosity, ...terms],
    (flow, density, viscosity) =>
      (line ? lineLoss(line, { density, viscosity }, flow).friction : 0) + (filter ? filterLoss(filter, flow) : 0),
  );
}
