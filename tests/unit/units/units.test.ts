import { unit as mathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type Dimension, type DimensionUnits, dimensions, findUnit } from '../../../server/src/units/units.ts';
import outside from '../../reference/values/units.json' with { type: 'json' };

const all = (Object.entries(dimensions) as [Dimension, DimensionUnits][]).flatMap(([dimension, { units }]) =>
  units.map((unit) => ({ dimension, ...unit })),
);

/** Our units as mathjs writes them, with the SI unit the sheet computes in. */
const inMathjs: { dimension: Dimension; name: string; from: string; si: string }[] = [
  ...(['in', 'mm', 'm', 'ft', 'cm', 'um', 'yd', 'km', 'mi'] as const).map((name) => ({
    dimension: 'length' as const,
    name,
    from: name,
    si: 'm',
  })),
  { dimension: 'volume', name: 'L', from: 'L', si: 'm^3' },
  { dimension: 'volume', name: 'in^3', from: 'in^3', si: 'm^3' },
  { dimension: 'volume', name: 'cm^3', from: 'cm^3', si: 'm^3' },
  { dimension: 'capacity', name: 'gal', from: 'gallon', si: 'm^3' },
  { dimension: 'capacity', name: 'qt', from: 'quart', si: 'm^3' },
  ...(['psi', 'kPa', 'bar', 'mbar', 'MPa', 'Pa'] as const).map((name) => ({
    dimension: 'pressure' as const,
    name,
    from: name,
    si: 'Pa',
  })),
  { dimension: 'temperature', name: 'degC', from: 'degC', si: 'K' },
  { dimension: 'temperature', name: 'degF', from: 'degF', si: 'K' },
  { dimension: 'power', name: 'hp', from: 'hp', si: 'W' },
  { dimension: 'power', name: 'kW', from: 'kW', si: 'W' },
  { dimension: 'time', name: 'us', from: 'us', si: 's' },
  { dimension: 'time', name: 'h', from: 'hour', si: 's' },
  { dimension: 'mass-flow', name: 'lb/h', from: 'lbm/hour', si: 'kg/s' },
  { dimension: 'mass-flow', name: 'g/min', from: 'g/minute', si: 'kg/s' },
  { dimension: 'volume-flow', name: 'L/h', from: 'L/hour', si: 'm^3/s' },
  { dimension: 'volume-flow', name: 'gal/h', from: 'gallon/hour', si: 'm^3/s' },
  { dimension: 'air-flow', name: 'cfm', from: 'ft^3/minute', si: 'm^3/s' },
  { dimension: 'air-flow', name: 'm^3/h', from: 'm^3/hour', si: 'm^3/s' },
  { dimension: 'area', name: 'in^2', from: 'in^2', si: 'm^2' },
  { dimension: 'resistance-per-length', name: 'mohm/ft', from: 'mohm/ft', si: 'ohm/m' },
  { dimension: 'voltage', name: 'kV', from: 'kV', si: 'V' },
  { dimension: 'current', name: 'mA', from: 'mA', si: 'A' },
  { dimension: 'inductance', name: 'mH', from: 'mH', si: 'H' },
  { dimension: 'mass', name: 'lb', from: 'lbm', si: 'kg' },
  { dimension: 'mass', name: 'oz', from: 'oz', si: 'kg' },
  { dimension: 'density', name: 'lb/gal', from: 'lbm/gallon', si: 'kg/m^3' },
  { dimension: 'density', name: 'lb/ft^3', from: 'lbm/ft^3', si: 'kg/m^3' },
  { dimension: 'specific-consumption', name: 'lb/(hp*h)', from: 'lbm/(hp*hour)', si: 'kg/J' },
  { dimension: 'specific-consumption', name: 'g/(kW*h)', from: 'g/(kW*hour)', si: 'kg/J' },
  { dimension: 'specific-energy', name: 'Btu/lb', from: 'BTU/lbm', si: 'J/kg' },
  { dimension: 'angle-per-pressure', name: 'deg/psi', from: 'deg/psi', si: 'deg/Pa' },
  { dimension: 'energy', name: 'mJ', from: 'mJ', si: 'J' },
];

describe('units', () => {
  it.each(inMathjs)('$name of $dimension is what mathjs 15 says', ({ dimension, name, from, si }) => {
    const unit = findUnit(dimension, name);
    for (const number of [1, 37.5]) {
      const ours = number * (unit?.factor ?? Number.NaN) + (unit?.offset ?? 0);
      expect(Math.abs(ours / mathUnit(number, from).toNumber(si) - 1)).toBeLessThan(1e-8);
    }
  });

  it('are all in the grid of GNU units but those that are mere numbers, of which octane has three kinds', () => {
    const known = new Set(outside.rows.map(({ dimension, unit }) => `${dimension}: ${unit}`));
    const missing = all.map(({ dimension, name }) => `${dimension}: ${name}`).filter((name) => !known.has(name));
    const octane = ['AKI', 'RON', 'MON', ''].map((kind) => `octane: ${kind}`);
    expect(missing).toEqual([...octane, 'ratio: ', 'ratio-number: ']);
  });

  it('have a usual unit in both systems', () => {
    for (const [dimension, { us, si }] of Object.entries(dimensions) as [Dimension, DimensionUnits][]) {
      expect(us.length && si.length, dimension).toBeGreaterThan(0);
      for (const name of [...us, ...si]) expect(findUnit(dimension, name)?.name, dimension).toBe(name);
    }
  });

  it('have no spelling twice in one dimension', () => {
    for (const [dimension, { units }] of Object.entries(dimensions) as [Dimension, DimensionUnits][]) {
      const spellings = units.flatMap(({ name, also = [] }) => [name, ...also]);
      expect(spellings, dimension).toEqual([...new Set(spellings)]);
    }
  });

  it.each([
    ['HP', 'power', 'hp'],
    ['KW', 'power', 'kW'],
    ['Rpm', 'rotational-speed', 'rpm'],
    ['PSI', 'pressure', 'psi'],
    ['kpa', 'pressure', 'kPa'],
    ['MPA', 'pressure', 'MPa'],
    ['mL', 'volume', 'cm^3'],
  ] as [string, Dimension, string][])('%s of %s is %s in another case', (written, dimension, name) => {
    expect(findUnit(dimension, written)?.name).toBe(name);
  });
});
