import {
  boilingTemperature,
  coldVaporRatio,
  leanStart,
  tankHeating,
  trueVaporPressure,
  type Volatility,
} from '../../server/src/engineering/boiling.ts';
import { e85ReidVaporPressures, reidOfEthanolBlend } from '../../server/src/engineering/reid-pressure.ts';
import { type Check, ownCheck } from './check.ts';
import { CELSIUS, PSI } from './units.ts';
import liquids from './values/liquids.json' with { type: 'json' };

const own = ownCheck(15, 'boiling and heating');
const reid = ownCheck(15, 'Reid vapor pressure');
const sea = 101325;
const gasoline = (psi: number): Volatility => ({ reidVaporPressure: psi * PSI, ethanolShare: 0, methanolShare: 0 });
const ethanol = { reidVaporPressure: 2.3 * PSI, ethanolShare: 1, methanolShare: 0 };
const methanol = { reidVaporPressure: 4.6 * PSI, ethanolShare: 0, methanolShare: 1 };
const celsius = (fuel: Volatility, pressure: number) => boilingTemperature(fuel, pressure) - CELSIUS;
const computed =
  'computed outside the project from EPA AP-42 figure 7.1-15 (first set of outside checks, notes on gasoline vapor pressure)';
const boils = (
  id: string,
  fuel: Volatility,
  what: string,
  pressure: number,
  expected: number,
  source: string,
  off = 0.3,
) =>
  own(
    `boiling-${id}`,
    `boiling temperature of ${what}`,
    () => celsius(fuel, pressure),
    expected,
    'degC',
    { absolute: off },
    source,
  );
const blendOf = (share: number) => reidOfEthanolBlend(9 * PSI, share) / PSI;
const liquidGrid = (name: 'ethanol' | 'methanol', fuel: Volatility, from: number, tolerance: number) =>
  own(
    `boiling-${name}-grid`,
    `Largest relative difference of the vapor pressure of ${name}, ${from} to 80 degC`,
    () =>
      Math.max(
        ...liquids[name].rows
          .filter(([kelvin]) => (kelvin as number) >= from + CELSIUS - 0.1)
          .map((row) => Math.abs(trueVaporPressure(fuel, row[0] as number) / (row[3] as number) - 1)),
      ),
    0,
    '-',
    { absolute: tolerance },
    `${liquids['made with']}, equations of state`,
  );

export const checks: Check[] = [
  boils('rvp-9', gasoline(9), 'gasoline of 9 psi at the sea', sea, 52.5, computed),
  boils('rvp-7', gasoline(7), 'gasoline of 7 psi at the sea', sea, 61, computed),
  boils('rvp-15', gasoline(15), 'gasoline of 15 psi at the sea', sea, 34.7, computed),
  boils('rvp-9-high', gasoline(9), 'gasoline of 9 psi at 2,000 m', 79495, 44, computed),
  boils('ethanol', ethanol, 'ethanol at one atmosphere', sea, 78.4, `${liquids['made with']}; handbooks 78.3 to 78.4`),
  boils(
    'methanol',
    methanol,
    'methanol at one atmosphere',
    sea,
    64.5,
    `${liquids['made with']}; handbooks 64.5 to 64.7`,
  ),
  boils('ethanol-high', ethanol, 'ethanol at 2,000 m, 79.495 kPa', 79495.2, 72.39, liquids['made with']),
  boils('methanol-high', methanol, 'methanol at 2,000 m, 79.495 kPa', 79495.2, 58.44, liquids['made with']),
  liquidGrid('ethanol', ethanol, -20, 0.06),
  liquidGrid('methanol', methanol, -20, 0.02),
  own(
    'boiling-heat-bypass',
    'rise of 60 L by a pump of 135 W with the bypass at the engine',
    () => tankHeating({ pump: 135, bypass: 150, volume: 0.06 }),
    28,
    'K',
    { absolute: 0.5 },
    'engineering notes, section 15, common practice, worked by hand',
  ),
  own(
    'boiling-heat-short',
    'rise of 60 L by a pump of 135 W with a short bypass',
    () => tankHeating({ pump: 135, bypass: 0, volume: 0.06 }),
    13,
    'K',
    { absolute: 0.5 },
    'engineering notes, section 15, common practice, worked by hand',
  ),
  own(
    'boiling-flash-ethanol',
    'vapor over ethanol at its flash point, 13 degC, burns at the lean limit (over its limit: 1)',
    () => coldVaporRatio(ethanol, 13 + CELSIUS, sea) / leanStart.value,
    1,
    '-',
    0.2,
    'closed-cup flash point 13 degC, from memory; flash points are read some K above the limit',
  ),
  own(
    'boiling-flash-methanol',
    'vapor over methanol at its flash point, 11 degC, burns at the lean limit (over its limit: 1)',
    () => coldVaporRatio(methanol, 11 + CELSIUS, sea) / leanStart.value,
    1,
    '-',
    0.25,
    'closed-cup flash point 11 degC, from memory; flash points are read some K above the limit',
  ),
  reid('reid-10', '9 psi gasoline with 10 % ethanol', () => blendOf(0.1), 10, 'psi', 1e-6, 'US volatility rule, 1 psi'),
  reid(
    'reid-15',
    '9 psi gasoline with 15 % ethanol, not to be told from 10 %',
    () => blendOf(0.15) - blendOf(0.1),
    0,
    'psi',
    { absolute: 0.1 },
    'NREL discussion document on ethanol and vapor pressure (2012), read',
  ),
  reid(
    'reid-test-fuel',
    '9 psi gasoline with 80 to 83 % ethanol',
    () => blendOf(0.815),
    6.25,
    'psi',
    { absolute: 0.25 },
    'test fuel of 40 CFR 1065.725, 6.0 to 6.5 psi, read',
  ),
  reid('reid-neat', 'neat ethanol', () => blendOf(1), 2.3, 'psi', 1e-9, 'US DOE Alternative Fuels Data Center'),
  reid(
    'reid-e85-summer',
    'highest of E85 in the hottest season',
    () => e85ReidVaporPressures[1].high / PSI,
    9,
    'psi',
    1e-6,
    'ASTM D5798-15, table read at the US DOE Alternative Fuels Data Center',
  ),
  reid(
    'reid-e85-winter',
    'lowest of E85 in the coldest season',
    () => e85ReidVaporPressures[4].low / PSI,
    9.5,
    'psi',
    1e-6,
    'ASTM D5798-15, table read at the US DOE Alternative Fuels Data Center',
  ),
];
