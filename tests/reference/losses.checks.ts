import { effectiveCompressionRatio } from '../../server/src/engineering/boost.ts';
import { plausibleRange } from '../../server/src/engineering/fuel-doubts.ts';
import { fullyTurbulentFactor, staticHead, suctionLineLoss, wayLoss } from '../../server/src/engineering/lines.ts';
import { type Check, ownCheck } from './check.ts';
import { LITER_PER_HOUR, PSI } from './units.ts';

const own = ownCheck(22, 'suction side and return line');
const bounds = ownCheck(22, 'clamps and bounds');
const gasoline = { density: 745, viscosity: 0.5e-3 / 745 };
const tube = { diameter: 0.0081026, length: 5, roughness: 1.5e-6 };

/** Inside diameter of schedule 40 pipe, m, and Crane's factor. */
const crane = [
  ['1/2', 0.0158, 0.027],
  ['3/4', 0.02093, 0.025],
  ['1', 0.02664, 0.023],
  ['2', 0.0525, 0.019],
  ['4', 0.10226, 0.017],
] as const;

/** Inside diameter, m, and fluids.ft_Crane of it. */
const small = [
  [0.006, 0.03393349],
  [0.0079375, 0.03112797],
  [0.009525, 0.02950597],
  [0.0127, 0.02714119],
] as const;

export const checks: Check[] = [
  own(
    'loss-suction-elbows',
    'loss of 5 m of 8.1026 mm tube with six elbows by 30 fT and 0.5 m lift at 300 L/h of gasoline',
    () =>
      (suctionLineLoss({ ...tube, elbows90: 6 }, gasoline, 300 * LITER_PER_HOUR).friction + staticHead(745, 0.5)) / 1e3,
    24.94352,
    'kPa',
    0.01,
    'first set of outside checks, row L24: fluids 1.0.22, straight tube with Colebrook and elbows with Crane fT',
  ),
  ...crane.map(([name, diameter, factor]) =>
    own(
      `loss-crane-${name}`,
      `fully turbulent factor of ${name} in steel pipe`,
      () => fullyTurbulentFactor(diameter),
      factor,
      '-',
      0.06,
      'Crane TP-410, table of fT, from memory; printed to two figures',
    ),
  ),
  own(
    'loss-crane-small',
    'Largest relative difference of the fully turbulent factor of bores from 6 to 12.7 mm',
    () => Math.max(...small.map(([diameter, factor]) => Math.abs(fullyTurbulentFactor(diameter) / factor - 1))),
    0,
    '-',
    { absolute: 0.025 },
    'fluids.ft_Crane, fluids 1.3.1',
  ),
  own(
    'loss-return-static',
    'static head of a return line that falls 0.5 m, apart from its friction',
    () => wayLoss([{ ...tube, rise: -0.5 }], gasoline, 300 * LITER_PER_HOUR).static,
    -745 * 9.80665 * 0.5,
    'Pa',
    1e-9,
    'hydrostatics, worked by hand',
  ),
  own(
    'loss-return-friction',
    'friction of the same line, which a falling line would hide',
    () => wayLoss([{ ...tube, rise: -0.5 }], gasoline, 300 * LITER_PER_HOUR).friction / 1e3,
    24.94352 - 5.417705 - 3.652977,
    'kPa',
    0.01,
    'first set of outside checks, row L24 less its elbows (fluids.ft_Crane) and lift',
  ),
  bounds(
    'bound-effective-high',
    'effective compression of 9 to 1 at 2,400 m, natural: 75.6 kPa counts as the sea',
    () => effectiveCompressionRatio(9, 75.6e3),
    9,
    '-',
    1e-12,
    'definition of the clamp',
  ),
  bounds(
    'bound-effective-boost',
    'effective compression of 8.5 to 1 with 6 psi at 2,400 m',
    () => effectiveCompressionRatio(8.5, 75.634e3 + 6 * PSI),
    (8.5 * (75.634 + 41.369)) / 101.325,
    '-',
    1e-4,
    'common practice, worked by hand',
  ),
  bounds(
    'bound-pump-gasoline-low',
    'lightest gasoline of the pump is within what is plausible (lower bound over it)',
    () => plausibleRange('density', 0, 0).low / 720,
    0.95,
    '-',
    0.05,
    'EN 228, 720 to 775 kg/m3, from memory',
  ),
  bounds(
    'bound-e85-octane',
    'least octane (AKI) of 85 % ethanol',
    () => plausibleRange('octane', 0.85, 0).low,
    94,
    'AKI',
    0.03,
    'US DOE Alternative Fuels Data Center: E85 94 to 96 and above, from memory',
  ),
];
