import { formatIn } from '../../server/src/units/format.ts';
import { parseQuantity } from '../../server/src/units/parse.ts';
import { isQuantity } from '../../server/src/units/quantity.ts';
import type { Dimension } from '../../server/src/units/units.ts';
import { dimensions } from '../../server/src/units/units.ts';
import { type Check, fromFirstSet } from './check.ts';
import outside from './values/units.json' with { type: 'json' };

const topic = 'units';

/** SI value of a quantity's text; `NaN` where it cannot be read. */
function si(text: string, dimension: Dimension): number {
  const read = parseQuantity(text, dimension);
  return isQuantity(read) ? read.value : Number.NaN;
}

/** A text's value in another unit of its dimension. */
function inUnit(text: string, dimension: Dimension, unit: string): number {
  return si(text, dimension) / si(`1 ${unit}`, dimension);
}

const first = (id: string, text: string, dimension: Dimension, unit: string): Check =>
  fromFirstSet(id, 13, topic, () => inUnit(text, dimension, unit));

const gaugeOf = (text: string) => Number.parseInt(formatIn(si(text, 'wire-size'), 'wire-size', 'AWG'), 10);

const firstSet: Check[] = [
  first('U01', '1 lb/h', 'mass-flow', 'g/s'),
  first('U02', '1 g/s', 'mass-flow', 'lb/h'),
  fromFirstSet('U03', 13, topic, () => inUnit('1 gal/h', 'volume-flow', 'L/h')),
  first('U04', '1 psi', 'pressure', 'kPa'),
  first('U05', '1 bar', 'pressure', 'psi'),
  first('U06', '1 inHg', 'pressure', 'kPa'),
  first('U08', '1 hp', 'power', 'kW'),
  first('U09', '1 PS', 'power', 'kW'),
  first('U10', '1 lb/(hp*h)', 'specific-consumption', 'g/(kW*h)'),
  first('U11', '1 in^3', 'volume', 'cm^3'),
  fromFirstSet('U12', 13, topic, () => (si('1 lb/h', 'mass-flow') / si('0.745 g/cm^3', 'density')) * 60e6),
];

const rows = outside.rows as { dimension: Dimension; unit: string; text: string; value: number }[];

/** The largest relative difference over every row of a dimension; a text that cannot be read counts as NaN. */
function worstOf(dimension: Dimension): number {
  const own = rows.filter((row) => row.dimension === dimension);
  return Math.max(...own.map(({ text, value }) => Math.abs(si(text, dimension) / value - 1)));
}

const grid = [...new Set(rows.map(({ dimension }) => dimension))].map((dimension): Check => {
  const own = rows.filter((row) => row.dimension === dimension);
  const units = new Set(own.map(({ unit }) => unit));
  return {
    id: `unit-${dimension}`,
    section: 13,
    topic,
    what: `Largest relative difference of ${own.length} texts of ${dimensions[dimension].title} in ${[...units].join(', ')}`,
    got: () => worstOf(dimension),
    expected: 0,
    unit: '-',
    tolerance: { absolute: 1e-8 },
    source: outside['made with'],
  };
});

const gauges: Check = {
  id: 'unit-gauge-numbers',
  section: 13,
  topic,
  what: 'Largest difference of the gauge number shown for the copper area of 1 to 26 AWG',
  got: () =>
    Math.max(
      ...rows
        .filter(({ unit, text }) => unit === 'AWG' && !text.includes('/'))
        .map(({ text, value }) => Math.abs(gaugeOf(`${value * 1e6} mm^2`) - Number.parseInt(text, 10))),
    ),
  expected: 0,
  unit: 'AWG',
  tolerance: { absolute: 0 },
  source: outside['made with'],
};

export const checks: Check[] = [...firstSet, ...grid, gauges];
