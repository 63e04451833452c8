import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { expectedOf } from '../../../server/src/sheet/read-values.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { readQuantity } from '../../../server/src/units/read.ts';
import { fieldsUnder } from '../sheet/schema-fields.ts';

const RULE = 'engine/power-out-of-reach';

/** Six cylinders of three liters that claim so much. */
function claiming(power: string, more = '') {
  return checkText(
    `format: 1
engine: { cylinders: 6, displacement: 3 L${more} }
fuel: { grade: gasoline }
stages: [{ name: now, power: ${power}, induction: natural }]
`,
    noHouse,
  );
}

const isOpen = ({ open }: ReturnType<typeof claiming>) => open.some(({ rule }) => rule === RULE);
const told = ({ findings }: ReturnType<typeof claiming>) => findings.filter(({ rule }) => rule === RULE);

describe('a check that lacks only what has a usual range', () => {
  it('is told where it fails over the whole range, which the message says, and offers no repair', () => {
    const checked = claiming('700 hp');
    expect(isOpen(checked)).toBe(false);
    const [finding] = told(checked);
    expect(finding?.message).toContain('The sheet does not give it, but this holds over the whole usual range');
    expect(finding?.message).toContain('3500 rpm to 6500 rpm');
    expect(finding?.repairs).toEqual([]);
    const [given] = told(claiming('700 hp', ', peak-power-speed: 6500 rpm'));
    expect(given?.message).not.toContain('usual range');
    expect(given?.severity).toBe(finding?.severity);
  });

  it('is kept where it holds over the whole range', () => {
    const checked = claiming('110 hp');
    expect(isOpen(checked)).toBe(false);
    expect(told(checked)).toEqual([]);
  });

  it('stays open where it holds in one part of the range and fails in another', () => {
    const checked = claiming('200 hp');
    expect(isOpen(checked)).toBe(true);
    expect(told(checked)).toEqual([]);
    expect(told(claiming('200 hp', ', peak-power-speed: 3500 rpm'))).toHaveLength(1);
    expect(told(claiming('200 hp', ', peak-power-speed: 6500 rpm'))).toEqual([]);
  });
});

describe('a usual range', () => {
  const ranged = fieldsUnder(root).filter(({ schema }) => schema.usually);

  it('is known for many fields', () => {
    expect(ranged.length).toBeGreaterThan(30);
  });

  it.each(ranged)('of $path is written in one unit and is part of what is allowed', ({ schema }) => {
    const { usually, dimension = 'ratio-number' } = schema;
    const [from, to] = [usually?.from, usually?.to].map((text) => readQuantity(text ?? '', dimension));
    if (!from || !to || !isQuantity(from) || !isQuantity(to)) throw new Error('cannot be read');
    const allowed = expectedOf(schema);
    expect(from.unit).toBe(to.unit);
    expect(from.value).toBeLessThan(to.value);
    expect(from.value).toBeGreaterThanOrEqual(allowed.from);
    expect(to.value).toBeLessThanOrEqual(allowed.to);
  });
});
