import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { type Entry, pathText } from '../../../server/src/sheet/entry.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import type { TextEdit } from '../../../server/src/sheet/problem.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity, type Quantity } from '../../../server/src/units/quantity.ts';
import { type DimensionUnits, dimensions, findUnit, type Unit } from '../../../server/src/units/units.ts';
import { read } from '../sheet/marked.ts';
import { samples } from './sheets.ts';

type Choose = (quantity: Quantity, units: readonly Unit[], index: number) => Unit | undefined;

/** Ways to choose another unit for the quantities of a sheet. */
const ways: [name: string, choose: Choose][] = [
  ['US units', ({ dimension }, units) => units.find(({ name }) => name === usual(dimension, 'us'))],
  ['SI units', ({ dimension }, units) => units.find(({ name }) => name === usual(dimension, 'si'))],
  ['the smallest units', (_, units) => units.toSorted((one, other) => one.factor - other.factor)[0]],
  ['the largest units', (_, units) => units.toSorted((one, other) => other.factor - one.factor)[0]],
  ['units all mixed up', (_, units, index) => units[index % units.length]],
];

function usual(dimension: Quantity['dimension'], system: 'us' | 'si'): string | undefined {
  return (dimensions[dimension] as DimensionUnits)[system][0];
}

/**
 * The sheet with every quantity in a unit of choice, to twelve digits; a tolerance becomes a range. Wires stay as they are:
 * a gauge and a metric size of the same area are different wires.
 */
function rewritten(text: string, choose: Choose): string {
  const edits: TextEdit[] = [];
  const walk = (entry: Entry) => {
    const { schema, kind, scalar, value, children } = entry;
    const dimension = kind === 'scalar' ? schema?.dimension : undefined;
    const quantity = dimension && parseQuantity(String(scalar), dimension);
    if (dimension && dimension !== 'wire-size' && quantity && isQuantity(quantity)) {
      const { units } = dimensions[dimension];
      const unit = choose(quantity, units, edits.length) ?? findUnit(dimension, quantity.unit);
      if (!unit) throw new Error(`no unit for ${quantity.text}`);
      const number = (si: number) => Number(((si - (unit.offset ?? 0)) / unit.factor).toPrecision(12));
      const { low, high } = quantity;
      const written = low === high ? `${number(low)}` : `${number(low)}..${number(high)}`;
      edits.push({ ...value, text: `${written} ${unit.name}`.trim() });
    }
    children.forEach(walk);
  };
  walk(read(text).root);
  return applyEdits(
    text,
    edits.toSorted((one, other) => one.start - other.start),
  );
}

describe.each(samples)('%s', (_, text) => {
  const before = checkText(text, noHouse);

  it.each(ways)('gives the same figures and findings in %s', (_name, choose) => {
    const other = rewritten(text, choose);
    expect(other).not.toBe(text);
    const after = checkText(other, noHouse);
    const found = ({ sheet, findings }: typeof before) => [
      ...sheet.problems.map(({ code }) => code),
      ...findings.map(({ rule, path, severity }) => `${rule} at ${pathText(path)}, ${severity}`),
    ];
    expect(found(after)).toEqual(found(before));
    after.plan.forEach((stage, index) => {
      const figures = before.plan[index]?.figures ?? new Map();
      expect([...stage.figures.keys()]).toEqual([...figures.keys()]);
      for (const [id, { value, low = value, high = value }] of stage.figures) {
        const was = figures.get(id);
        const ends = { low: was?.low ?? was?.value, high: was?.high ?? was?.value };
        expect(close(value, was?.value), `${id} of ${stage.name}: ${value}, was ${was?.value}`).toBe(true);
        expect(close(low, ends.low) && close(high, ends.high), `bounds of ${id} of ${stage.name}`).toBe(true);
      }
    });
  });
});

/** Equal but for what twelve digits and the solvers' tolerances leave. */
function close(one: number, other: number | undefined): boolean {
  return other !== undefined && Math.abs(one - other) <= 1e-6 * Math.max(Math.abs(one), Math.abs(other), 1e-9);
}
