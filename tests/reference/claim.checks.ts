import { standardAir } from '../../server/src/engineering/air.ts';
import * as claim from '../../server/src/engineering/claim.ts';
import { airMassRatio, ambientOf, chargeOf } from '../../server/src/engineering/day.ts';
import { type Check, ownCheck } from './check.ts';
import { CELSIUS, INCH_OF_MERCURY, PSI } from './units.ts';

const own = ownCheck(14, 'claim and correction');
const onDay = ownCheck(14, 'days');
const fahrenheit = (degrees: number) => (degrees + 459.67) / 1.8;
const dry = (inches: number, degrees: number, humidity: number) =>
  claim.dryPressure(inches * INCH_OF_MERCURY, fahrenheit(degrees), humidity);
const older = (inches: number, degrees: number, humidity: number) =>
  claim.olderCorrectionFactor({ dryPressure: dry(inches, degrees, humidity), temperature: fahrenheit(degrees) });
const factor = (kilopascal: number, celsius: number) =>
  claim.correctionFactor({ dryPressure: kilopascal * 1e3, temperature: celsius + CELSIUS });
const example = 'worked example of a dynamometer maker on the J607 correction, read (teamzr1.com, dynomitedyno.com)';
const hand = 'SAE J1349 (1990) formula read in secondary copies (passionford.com, wahiduddin.net), worked by hand';

const dryAt = (altitude: number, celsius: number) => ambientOf(standardAir(altitude).pressure, celsius + CELSIUS, 0);
const none = { boost: 0, efficiency: 1, effectiveness: 0 };
const roots = { boost: 6 * PSI, efficiency: 0.55, effectiveness: 0 };
const turbo = { boost: 8 * PSI, efficiency: 0.7, effectiveness: 0 };

export const checks: Check[] = [
  own(
    'claim-standard',
    'factor in the standard air, 99 kPa dry and 25 degC',
    () => factor(99, 25),
    1,
    '-',
    1e-12,
    hand,
  ),
  own('claim-mile-high', 'factor at 83.3 kPa dry and 25 degC', () => factor(83.3, 25), 1.2224, '-', 1e-4, hand),
  own('claim-cool', 'factor at 101.3 kPa dry and 10 degC', () => factor(101.3, 10), 0.94381, '-', 1e-4, hand),
  own('claim-hot', 'factor at 94.0 kPa dry and 40 degC', () => factor(94, 40), 1.09366, '-', 1e-4, hand),
  own(
    'claim-older-humid',
    'older factor at 85 degF, 85 %, 28.85 inHg',
    () => older(28.85, 85, 0.85),
    1.1005,
    '-',
    1e-3,
    example,
  ),
  own(
    'claim-older-cold',
    'older factor at 55 degF, 35 %, 30.10 inHg',
    () => older(30.1, 55, 0.35),
    0.994,
    '-',
    1e-3,
    example,
  ),
  own(
    'claim-dry-pressure',
    'dry pressure at 85 degF, 85 %, 28.85 inHg: 1.213 inHg of saturated vapor',
    () => dry(28.85, 85, 0.85) / INCH_OF_MERCURY,
    28.85 - 0.85 * 1.2135,
    'inHg',
    3e-4,
    'steam table, 0.5960 psi at 85 degF, from memory',
  ),
  own(
    'claim-older-over-standard',
    'figure by the older standard over that by SAE J1349, seen in the same air',
    () => claim.standardPower(100, 'standard', dryAt(0, 25)) / claim.standardPower(100, 'older-standard', dryAt(0, 25)),
    1.04,
    '-',
    0.005,
    'dynamometer trade: about 4 % higher, read in several pages',
  ),
  own(
    'claim-as-driven',
    'power at the site of 300 hp as driven',
    () => claim.powerAtSite(300, 'as-driven', dryAt(2400, 30)),
    300,
    'hp',
    1e-12,
    'definition',
  ),
  own(
    'claim-crank',
    'crank power of 255 hp at the wheels with 15 % lost',
    () => claim.crankPower(255),
    300,
    'hp',
    1e-12,
    'worked by hand; the loss is common practice',
  ),
  onDay(
    'day-altitude-rule',
    'air mass of a natural engine at 5,000 ft over that at the sea, standard atmosphere',
    () => airMassRatio('nothing', none, dryAt(0, 15), dryAt(1524, 15 - 9.906)),
    0.85,
    '-',
    0.01,
    'trade rule of 3 % for each 1,000 ft, common practice',
  ),
  onDay(
    'day-temperature-rule',
    'air mass of a natural engine at 87 degF over that at 77 degF',
    () => airMassRatio('nothing', none, dryAt(0, 25), dryAt(0, 25 + 10 / 1.8)),
    0.99,
    '-',
    0.002,
    'trade rule of 1 % for each 10 degF, common practice',
  ),
  onDay(
    'day-turbo-ratio',
    'pressure ratio of a turbo that keeps 8 psi at 1,500 m, 84.556 kPa',
    () => chargeOf('gauge-boost', turbo, dryAt(0, 15), dryAt(1500, 15)).pressure / dryAt(1500, 15).pressure,
    1.652326,
    '-',
    1e-4,
    'first set of outside checks, row B09',
  ),
  onDay(
    'day-roots-boost',
    'boost of a roots blower of 6 psi at the sea, at 1,500 m: 6 * 84.556 / 101.325',
    () => {
      const on = dryAt(1500, 15);
      return (chargeOf('pressure-ratio', roots, dryAt(0, 15), on).pressure - on.pressure) / PSI;
    },
    5.007,
    'psi',
    1e-3,
    'pressure ratio kept, worked by hand with ISO 2533 pressures',
  ),
  onDay(
    'day-roots-share',
    'air mass of a roots engine at 2,400 m over the sea, both 15 degC, is that of a natural one',
    () => airMassRatio('pressure-ratio', roots, dryAt(0, 15), dryAt(2400, 15)),
    75.634 / 101.325,
    '-',
    1e-3,
    'ISO 2533 table, pressure at 2,400 m 756.34 hPa, from memory',
  ),
  onDay(
    'day-turbo-share',
    'air mass of a turbo engine of 8 psi, no cooler, at 2,400 m over the sea, both 15 degC',
    () => airMassRatio('gauge-boost', turbo, dryAt(0, 15), dryAt(2400, 15)),
    0.8178,
    '-',
    1e-3,
    'worked by hand: (75.63 + 55.16) / (101.33 + 55.16) * sqrt(342.6 K / 357.9 K)',
  ),
  onDay(
    'day-regulated',
    'air mass of an engine regulated to an absolute pressure, at 2,400 m over the sea',
    () => airMassRatio('mass-flow', turbo, dryAt(0, 15), dryAt(2400, 15)),
    1,
    '-',
    1e-12,
    'definition',
  ),
];
