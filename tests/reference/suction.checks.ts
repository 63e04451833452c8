import { boilingTemperature } from '../../server/src/engineering/boiling.ts';
import {
  gasolineVaporConstants,
  gasolineVaporPressure,
  suctionHeadAvailable,
  temperatureAtMargin,
} from '../../server/src/engineering/suction.ts';
import { type Check, fromFirstSet } from './check.ts';
import { CELSIUS, PSI } from './units.ts';

/** Gasoline of 9 psi. */
const GASOLINE = { reidVaporPressure: 9 * PSI, ethanolShare: 0, methanolShare: 0 };

const vapor = 'gasoline vapor pressure';
const head = 'suction head';

function fahrenheit(degrees: number): number {
  return (degrees + 459.67) / 1.8;
}

function vaporKilopascal(id: string, reid: number, degrees: number): Check {
  return fromFirstSet(id, 7, vapor, () => gasolineVaporPressure(reid * PSI, fahrenheit(degrees)) / 1000);
}

function headMeters(id: string, reid: number, degrees: number, tankPressure: number, rise: number, loss: number) {
  return fromFirstSet(id, 7, head, () =>
    suctionHeadAvailable(
      { tankPressure, density: 745, rise, loss },
      gasolineVaporPressure(reid * PSI, fahrenheit(degrees)),
    ),
  );
}

/** True vapor pressure, psi, of gasolines of a Reid vapor pressure, psi, from 40 to 100 degF in steps of ten. */
const printedTable: readonly [number, readonly number[]][] = [
  [13, [4.7, 5.7, 6.9, 8.3, 9.9, 11.7, 13.8]],
  [10, [3.4, 4.2, 5.2, 6.2, 7.4, 8.8, 10.5]],
  [7, [2.3, 2.9, 3.5, 4.3, 5.2, 6.2, 7.4]],
];

const printed: Check[] = printedTable.flatMap(([reid, pressures]) =>
  pressures.map((pressure, i) => ({
    id: `suction-printed-${reid}-${40 + 10 * i}`,
    section: 7,
    topic: vapor,
    what: `true vapor pressure of gasoline, Reid vapor pressure ${reid} psi, at ${40 + 10 * i} degF`,
    got: () => gasolineVaporPressure(reid * PSI, fahrenheit(40 + 10 * i)) / PSI,
    expected: pressure,
    unit: 'psi',
    tolerance: { relative: 0.03 },
    source: 'EPA AP-42 ch. 7.1 table 7.1-2 (edition before 2019, printed to 0.1 psi), read in a public transcription',
  })),
);

function constantsFromTable(reid: number, a: number, b: number): Check[] {
  const source = 'EPA AP-42 ch. 7.1 (2019 and later) table 7.1-2, read in two public transcriptions';
  const common = { section: 7, topic: vapor, unit: '-', tolerance: { relative: 2e-4 }, source };
  return [
    {
      ...common,
      id: `suction-constant-a-${reid}`,
      what: `constant A, Reid vapor pressure ${reid} psi`,
      got: () => gasolineVaporConstants(reid * PSI).a,
      expected: a,
    },
    {
      ...common,
      id: `suction-constant-b-${reid}`,
      what: `constant B, Reid vapor pressure ${reid} psi`,
      got: () => gasolineVaporConstants(reid * PSI).b,
      expected: b,
      unit: 'degR',
    },
  ];
}

export const checks: Check[] = [
  fromFirstSet('V02', 7, vapor, () => gasolineVaporConstants(10 * PSI).a),
  vaporKilopascal('V09', 9, 68),
  vaporKilopascal('V10', 9, 120),
  vaporKilopascal('V11', 11.5, 60),
  vaporKilopascal('V13', 13.5, 80),
  vaporKilopascal('V14', 15, 40),
  vaporKilopascal('V15', 15, 100),
  vaporKilopascal('V16', 10, 140),
  headMeters('V17', 9, 100, 101325, 0.5, 2000),
  headMeters('V18', 9, 122, 101325, 0.5, 2000),
  headMeters('V19', 11.5, 100, 84556, 0.6, 3000),
  headMeters('V21', 7.8, 131, 101325, -0.3, 1000),
  fromFirstSet('V24', 7, vapor, () => boilingTemperature(GASOLINE, 79495) - CELSIUS),
  fromFirstSet('V25', 7, vapor, () => boilingTemperature(GASOLINE, 86325) - CELSIUS),
  {
    id: 'suction-margin-gone',
    section: 7,
    topic: head,
    what: 'fuel temperature at which the head of row V25 is gone: Reid vapor pressure 9 psi, 15 kPa of suction at sea level',
    got: () => {
      const suction = { tankPressure: 101325, density: 745, rise: 0, loss: 15000 };
      return temperatureAtMargin(suction, (kelvin) => gasolineVaporPressure(9 * PSI, kelvin), 0).temperature - CELSIUS;
    },
    expected: 46.803,
    unit: 'degC',
    tolerance: { absolute: 0.3 },
    source: 'row V25: the same state found from the vapor-pressure line alone',
  },
  ...printed,
  ...constantsFromTable(13, 11.644, 5043.6),
  ...constantsFromTable(10, 11.724, 5237.3),
  ...constantsFromTable(7, 11.833, 5500.6),
];
