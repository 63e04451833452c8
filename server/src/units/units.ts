import { antiknockIndex, sensitivity } from '../engineering/octane.ts';
import { canonical } from './spelling.ts';

/**
 * The units a sheet may use, by dimension. Factors are exact definitions (NIST SP 811, 2008, Appendix B; inch of mercury
 * at 0 degC and standard gravity) unless a note says otherwise. SI value = number * factor + offset.
 */
export type Unit = { name: string; also?: string[]; factor: number; offset?: number; note?: string };
export type System = 'us' | 'si';
export type DimensionUnits = { title: string; units: Unit[]; us: string[]; si: string[] };

const POUND = 0.45359237;
const INCH = 0.0254;
const FOOT = 0.3048;
const US_GALLON = 231 * INCH ** 3;
const PSI = (POUND * 9.80665) / INCH ** 2;
const HORSEPOWER = 550 * FOOT * POUND * 9.80665;
const HOUR = 3600;
const DEGREE_F = 5 / 9;
/** The trade's 10.5 cc/min per lb/h means a test fluid of 0.720 kg/L; at 0.745 kg/L it would be 10.15. */
export const TEST_FLUID_DENSITY = 720;

const otherPressure: Unit[] = [
  { name: 'kPa', factor: 1e3 },
  { name: 'bar', factor: 1e5 },
  { name: 'inHg', also: ['in Hg'], factor: 3386.38864 },
  { name: 'mmHg', also: ['mm Hg'], factor: 133.3223874 },
  { name: 'mbar', also: ['hPa'], factor: 100 },
  { name: 'kg/cm^2', also: ['kgf/cm^2'], factor: 98066.5 },
  { name: 'MPa', factor: 1e6 },
  { name: 'Pa', factor: 1 },
  { name: 'inH2O', also: ['in H2O', 'inH20', 'inWC'], factor: 249.08891 },
];
const pressures: Unit[] = [{ name: 'psi', also: ['lbf/in^2', 'lb/in^2'], factor: PSI }, ...otherPressure];
const massFlow: Unit[] = [
  { name: 'lb/h', also: ['pph'], factor: POUND / HOUR },
  { name: 'g/s', factor: 1e-3 },
  { name: 'kg/h', factor: 1 / HOUR },
  { name: 'g/min', factor: 1e-3 / 60 },
  { name: 'kg/s', factor: 1 },
  { name: 'lb/min', factor: POUND / 60 },
  { name: 'kg/min', factor: 1 / 60 },
];

const KIND_NOTE = `AKI is the mean of RON and MON; where one of them is not known they are taken ${sensitivity.value} apart, common practice`;

export const dimensions = {
  length: {
    title: 'length',
    us: ['in', 'ft'],
    si: ['mm', 'm'],
    units: [
      { name: 'in', also: ['"'], factor: INCH },
      { name: 'mm', factor: 1e-3 },
      { name: 'm', factor: 1 },
      { name: 'ft', also: ["'"], factor: FOOT },
      { name: 'cm', factor: 1e-2 },
      { name: 'um', also: ['µm'], factor: 1e-6 },
      { name: 'yd', factor: 3 * FOOT },
      { name: 'km', factor: 1e3 },
      { name: 'mi', factor: 5280 * FOOT },
    ],
  },
  volume: {
    title: 'volume',
    us: ['in^3'],
    si: ['L'],
    units: [
      { name: 'L', factor: 1e-3 },
      { name: 'in^3', also: ['cid', 'ci'], factor: INCH ** 3 },
      { name: 'cm^3', also: ['cc', 'mL'], factor: 1e-6 },
      { name: 'm^3', factor: 1 },
    ],
  },
  capacity: {
    title: 'capacity',
    us: ['gal'],
    si: ['L'],
    units: [
      { name: 'L', factor: 1e-3 },
      { name: 'gal', also: ['US gal'], factor: US_GALLON },
      { name: 'qt', also: ['US qt'], factor: US_GALLON / 4 },
    ],
  },
  pressure: { title: 'pressure', us: ['psi'], si: ['kPa'], units: pressures },
  depression: { title: 'depression', us: ['inHg'], si: ['kPa'], units: pressures },
  'absolute-pressure': { title: 'absolute pressure', us: ['psi'], si: ['kPa'], units: pressures },
  temperature: {
    title: 'temperature',
    us: ['degF'],
    si: ['degC'],
    units: [
      { name: 'degC', also: ['deg C', 'C'], factor: 1, offset: 273.15 },
      { name: 'degF', also: ['deg F', 'F'], factor: DEGREE_F, offset: 273.15 - 32 * DEGREE_F },
      { name: 'K', factor: 1 },
    ],
  },
  power: {
    title: 'power',
    us: ['hp'],
    si: ['kW'],
    units: [
      { name: 'hp', also: ['brake hp'], factor: HORSEPOWER },
      { name: 'kW', factor: 1e3 },
      { name: 'PS', also: ['metric hp', 'cv'], factor: 75 * 9.80665 },
      { name: 'W', factor: 1 },
    ],
  },
  'rotational-speed': {
    title: 'rotational speed',
    us: ['rpm'],
    si: ['rpm'],
    units: [
      { name: 'rpm', also: ['1/min', 'r/min', 'rev/min'], factor: 1 / 60 },
      { name: '1/s', also: ['rev/s'], factor: 1 },
    ],
  },
  time: {
    title: 'time',
    us: ['ms', 's'],
    si: ['ms', 's'],
    units: [
      { name: 'ms', factor: 1e-3 },
      { name: 'us', also: ['µs'], factor: 1e-6 },
      { name: 's', factor: 1 },
      { name: 'min', factor: 60 },
      { name: 'h', factor: HOUR },
    ],
  },
  'mass-flow': { title: 'mass flow', us: ['lb/h'], si: ['kg/h'], units: massFlow },
  'injector-flow': {
    title: 'injector flow',
    us: ['lb/h'],
    si: ['cm^3/min'],
    units: [
      ...massFlow,
      {
        name: 'cc/min',
        also: ['mL/min'],
        factor: (1e-6 / 60) * TEST_FLUID_DENSITY,
        note: 'cc/min is read with a test fluid of 0.720 kg/L',
      },
      {
        name: 'cm^3/min',
        factor: (1e-6 / 60) * TEST_FLUID_DENSITY,
        note: 'cm^3/min is read with a test fluid of 0.720 kg/L',
      },
    ],
  },
  'volume-flow': {
    title: 'volume flow',
    us: ['L/h'],
    si: ['L/h'],
    units: [
      { name: 'L/h', also: ['lph'], factor: 1e-3 / HOUR },
      { name: 'gal/h', also: ['gph'], factor: US_GALLON / HOUR },
      { name: 'L/min', also: ['lpm'], factor: 1e-3 / 60 },
      { name: 'gal/min', also: ['gpm'], factor: US_GALLON / 60 },
      { name: 'm^3/s', factor: 1 },
    ],
  },
  'air-flow': {
    title: 'air flow',
    us: ['cfm'],
    si: ['m^3/h'],
    units: [
      { name: 'cfm', also: ['ft^3/min'], factor: FOOT ** 3 / 60 },
      { name: 'm^3/h', factor: 1 / HOUR },
      { name: 'm^3/s', factor: 1 },
    ],
  },
  area: {
    title: 'area',
    us: ['in^2'],
    si: ['cm^2'],
    units: [
      { name: 'in^2', factor: INCH ** 2 },
      { name: 'cm^2', factor: 1e-4 },
      { name: 'm^2', factor: 1 },
    ],
  },
  'resistance-per-length': {
    title: 'resistance per length',
    us: ['mohm/ft'],
    si: ['mohm/m'],
    units: [
      { name: 'mohm/ft', factor: 1e-3 / FOOT },
      { name: 'mohm/m', factor: 1e-3 },
    ],
  },
  velocity: {
    title: 'velocity',
    us: ['ft/s'],
    si: ['m/s'],
    units: [
      { name: 'm/s', factor: 1 },
      { name: 'ft/s', factor: FOOT },
    ],
  },
  voltage: {
    title: 'voltage',
    us: ['V'],
    si: ['V'],
    units: [
      { name: 'V', factor: 1 },
      { name: 'mV', factor: 1e-3 },
      { name: 'kV', factor: 1e3 },
    ],
  },
  current: {
    title: 'current',
    us: ['A'],
    si: ['A'],
    units: [
      { name: 'A', factor: 1 },
      { name: 'mA', factor: 1e-3 },
    ],
  },
  resistance: {
    title: 'resistance',
    us: ['ohm'],
    si: ['ohm'],
    units: [
      { name: 'ohm', also: ['Ω'], factor: 1 },
      { name: 'mohm', also: ['mΩ'], factor: 1e-3 },
      { name: 'kohm', also: ['kΩ'], factor: 1e3 },
    ],
  },
  inductance: {
    title: 'inductance',
    us: ['mH'],
    si: ['mH'],
    units: [
      { name: 'mH', factor: 1e-3 },
      { name: 'H', factor: 1 },
      { name: 'uH', also: ['µH'], factor: 1e-6 },
    ],
  },
  angle: { title: 'angle', us: ['deg'], si: ['deg'], units: [{ name: 'deg', also: ['°'], factor: 1 }] },
  'angle-per-pressure': {
    title: 'angle per pressure',
    us: ['deg/psi'],
    si: ['deg/bar'],
    units: [
      { name: 'deg/psi', factor: 1 / PSI },
      { name: 'deg/bar', factor: 1e-5 },
      { name: 'deg/kPa', factor: 1e-3 },
    ],
  },
  mass: {
    title: 'mass',
    us: ['lb'],
    si: ['kg'],
    units: [
      { name: 'lb', factor: POUND },
      { name: 'kg', factor: 1 },
      { name: 'g', factor: 1e-3 },
      { name: 'oz', factor: POUND / 16 },
    ],
  },
  density: {
    title: 'density',
    us: ['lb/gal'],
    si: ['kg/m^3'],
    units: [
      { name: 'kg/m^3', also: ['g/L'], factor: 1 },
      { name: 'kg/L', also: ['g/cc', 'g/cm^3', 'g/mL'], factor: 1e3 },
      { name: 'lb/gal', factor: POUND / US_GALLON },
      { name: 'lb/ft^3', factor: POUND / FOOT ** 3 },
    ],
  },
  'air-density': {
    title: 'air density',
    us: ['lb/ft^3'],
    si: ['kg/m^3'],
    units: [
      { name: 'kg/m^3', factor: 1 },
      { name: 'lb/ft^3', factor: POUND / FOOT ** 3 },
    ],
  },
  'specific-consumption': {
    title: 'specific fuel consumption',
    us: ['lb/(hp*h)'],
    si: ['g/(kW*h)'],
    units: [
      {
        name: 'lb/(hp*h)',
        also: ['lb/hp/h', 'lb/(hp.h)', 'lb/hp-h', 'lb/hp h', 'lb/(hp h)'],
        factor: POUND / HORSEPOWER / HOUR,
      },
      { name: 'g/(kW*h)', also: ['g/kW/h', 'g/(kW.h)', 'g/kWh', 'g/kW h', 'g/(kW h)'], factor: 1e-6 / HOUR },
    ],
  },
  'specific-energy': {
    title: 'energy per mass',
    us: ['Btu/lb'],
    si: ['MJ/kg'],
    units: [
      { name: 'MJ/kg', factor: 1e6 },
      { name: 'Btu/lb', also: ['BTU/lb'], factor: 2326 },
      { name: 'kJ/kg', factor: 1e3 },
    ],
  },
  viscosity: {
    title: 'kinematic viscosity',
    us: ['mm^2/s'],
    si: ['mm^2/s'],
    units: [
      { name: 'mm^2/s', also: ['cSt'], factor: 1e-6 },
      { name: 'm^2/s', factor: 1 },
    ],
  },
  torque: {
    title: 'torque',
    us: ['lbf ft'],
    si: ['N m'],
    units: [
      { name: 'lbf ft', also: ['lb ft', 'lb-ft', 'ft lb', 'ft-lb'], factor: POUND * 9.80665 * FOOT },
      { name: 'N m', also: ['Nm', 'N*m'], factor: 1 },
    ],
  },
  heat: {
    title: 'heat flow',
    us: ['W'],
    si: ['W'],
    units: [{ name: 'W', factor: 1 }],
  },
  energy: {
    title: 'energy',
    us: ['mJ'],
    si: ['mJ'],
    units: [
      { name: 'mJ', factor: 1e-3 },
      { name: 'J', factor: 1 },
    ],
  },
  'wire-size': {
    title: 'wire size',
    us: ['AWG'],
    si: ['mm^2'],
    units: [
      { name: 'mm^2', also: ['sq mm'], factor: 1e-6 },
      { name: 'AWG', also: ['ga', 'gauge'], factor: Number.NaN, note: 'gauge numbers convert by ASTM B258' },
    ],
  },
  octane: {
    title: 'octane',
    us: ['AKI'],
    si: ['RON'],
    units: [
      { name: 'AKI', also: ['(R+M)/2', 'R+M/2'], factor: 1 },
      { name: 'RON', factor: 1, offset: antiknockIndex(100, 'RON') - 100, note: KIND_NOTE },
      { name: 'MON', factor: 1, offset: antiknockIndex(100, 'MON') - 100, note: KIND_NOTE },
      {
        name: '',
        also: ['octane', 'oct'],
        factor: 1,
        note: 'a bare octane number is AKI unless the house says otherwise',
      },
    ],
  },
  ratio: {
    title: 'share',
    us: ['%'],
    si: ['%'],
    units: [
      { name: '%', also: ['percent'], factor: 0.01 },
      { name: '', factor: 1 },
    ],
  },
  'ratio-number': {
    title: 'ratio',
    us: [''],
    si: [''],
    units: [{ name: '', also: [':1', 'to 1', 'to one'], factor: 1 }],
  },
} satisfies Record<string, DimensionUnits>;

export type Dimension = keyof typeof dimensions;

type Spelling = { spelling: string; unit: Unit };

/** The units of a dimension: by each name as the table has it, by its canonical spelling, and by that in small letters. */
type Names = { exact: Map<string, Unit>; canonical: Map<string, Unit>; folded: Map<string, Spelling[]> };

function namesOf({ units }: DimensionUnits): Names {
  const names: Names = { exact: new Map(), canonical: new Map(), folded: new Map() };
  for (const unit of units) {
    for (const name of [unit.name, ...(unit.also ?? [])]) {
      const spelling = canonical(name);
      names.exact.set(name, unit);
      names.canonical.set(spelling, unit);
      const folded = spelling.toLowerCase();
      names.folded.set(folded, [...(names.folded.get(folded) ?? []), { spelling, unit }]);
    }
  }
  return names;
}

const byDimension = new Map(
  Object.entries(dimensions).map(([dimension, table]) => [dimension as Dimension, namesOf(table)]),
);

/** The unit of that dimension with that name, spelled out or not, letter case forgiven where it is unambiguous. */
export function findUnit(dimension: Dimension, name: string): Unit | undefined {
  const names = byDimension.get(dimension);
  const exact = names?.exact.get(name);
  if (exact || !names) return exact;
  const spelling = canonical(name);
  const spelled = names.canonical.get(spelling);
  if (spelled) return spelled;
  const near = names.folded.get(spelling.toLowerCase())?.filter((known) => !isOtherPrefix(spelling, known.spelling));
  return near && new Set(near.map(({ unit }) => unit)).size === 1 ? near[0]?.unit : undefined;
}

/** Whether only the case of a prefix differs: `Mohm` is no `mohm`, `mPa` no `MPa`. */
function isOtherPrefix(one: string, other: string): boolean {
  return one.length > 1 && one[0] !== other[0] && /m/i.test(one.charAt(0)) && one.slice(1) === other.slice(1);
}

/** The dimensions in which a unit of that name exists. */
export function dimensionsOfUnit(name: string): Dimension[] {
  return (Object.keys(dimensions) as Dimension[]).filter((dimension) => findUnit(dimension, name));
}

/** Whether a bare number is a value of that dimension. */
export function isPureNumber(dimension: Dimension): boolean {
  return findUnit(dimension, '') !== undefined;
}
