import fc from 'fast-check';
import { type FieldSchema, resolve, root } from '../../../server/src/sheet/schema.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { type DimensionUnits, dimensions } from '../../../server/src/units/units.ts';

const texts = ['a', 'b', 'paper/no-title', 'drive.csv'];

/** Any sheet the schema allows, with some of its fields and without parts of a catalog, as text; JSON is YAML. */
export const randomSheet: fc.Arbitrary<string> = anyValue({ ...root, required: ['format'] }).map((sheet) =>
  JSON.stringify(sheet, undefined, 1),
);

function anyValue(reference: FieldSchema): fc.Arbitrary<unknown> {
  const schema = resolve(reference);
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.dimension) return quantity(schema);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  const { minimum = 0, maximum = 1000 } = schema;
  switch (schema.type) {
    case 'boolean':
      return fc.boolean();
    case 'integer':
      return fc.integer({ min: minimum, max: maximum });
    case 'number':
      return fc.double({ min: minimum, max: maximum, noNaN: true });
    case 'array':
      return list(schema);
    case 'object':
      return fields(schema);
    default:
      return fc.constantFrom(...texts.filter((text) => new RegExp(schema.pattern ?? '', 'u').test(text)));
  }
}

function fields({ properties = {}, required = [] }: FieldSchema): fc.Arbitrary<object> {
  const own = Object.entries(properties).filter(([name]) => name !== 'use' && name !== 'kits');
  const entries = own.map(([name, schema]) => {
    const value = anyValue(schema);
    return [name, required.includes(name) ? value : fc.option(value, { nil: undefined, freq: 4 })] as const;
  });
  return fc.record(Object.fromEntries(entries));
}

function list({ items, minItems = 0, maxItems = 4 }: FieldSchema): fc.Arbitrary<unknown[]> {
  if (Array.isArray(items)) return fc.tuple(...items.map(anyValue));
  if (!items) return fc.constant([]);
  return fc.array(anyValue(items), { minLength: minItems, maxLength: Math.min(maxItems, Math.max(minItems, 4)) });
}

/** A quantity in the field's range, in any unit, at times with a tolerance that stays in the range. */
function quantity({ dimension = 'ratio-number', allowed }: FieldSchema): fc.Arbitrary<string> {
  const { units } = dimensions[dimension] as DimensionUnits;
  const usable = units.filter(({ name }) => name !== 'AWG');
  const [from, to] = [allowed?.from ?? '1', allowed?.to ?? '100'].map((text) => {
    const read = parseQuantity(text, dimension);
    return isQuantity(read) ? read.value : usable[0]?.factor;
  }) as [number, number];
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  return fc.tuple(share, share, fc.constantFrom(...usable), fc.nat(9)).map(([one, other, unit, isLoose]) => {
    const written = (at: number) => {
      const si = from + (0.001 + 0.998 * at) * (to - from);
      return Number(((si - (unit.offset ?? 0)) / unit.factor).toPrecision(9));
    };
    const [low, high] = [Math.min(one, other), Math.max(one, other)].map(written) as [number, number];
    const text = isLoose === 0 && low < high ? `${low}..${high}` : `${written(one)}`;
    return `${text} ${unit.name}`.trim();
  });
}
