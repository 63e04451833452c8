import { expectedOf, isInRange } from '../../sheet/read-values.ts';
import type { FieldSchema } from '../../sheet/schema.ts';
import { isQuantity, type Quantity } from '../../units/quantity.ts';
import { LONGEST_QUANTITY, readQuantity } from '../../units/read.ts';
import { type Dimension, type DimensionUnits, dimensions, type Unit } from '../../units/units.ts';
import type { Proposal } from './proposal.ts';

type Candidate = { read: Quantity; about: string };

/**
 * The number that is typed with each unit it can have: the units of the field's examples first, and only those with which
 * it is a value the field allows, if there are such. Nothing without a number, and nothing once a quantity stands there.
 * As long as no letter of the unit is typed the list names each unit once; then it has every spelling that goes on so,
 * and so that no list is left from before it is asked for anew: an editor filters what it has, whatever the letter's case.
 */
export function quantitiesFor(written: string, schema: FieldSchema): { proposals: Proposal[]; incomplete: boolean } {
  const { dimension } = schema;
  const none = { proposals: [], incomplete: false };
  if (!dimension || written.length > LONGEST_QUANTITY) return none;
  const whole = readQuantity(written, dimension);
  if (isQuantity(whole) && (whole.unit !== '' || isInRange(whole, schema))) return none;
  for (const numberEnd of numberEnds(written)) {
    const candidates = candidatesFor(written, numberEnd, dimension);
    if (candidates.length === 0) continue;
    const allowed = candidates.filter(({ read }) => isInRange(read, schema));
    const usual = expectedOf(schema).usual.map(({ unit }) => unit);
    const ranked = (allowed.length ? allowed : candidates).toSorted(
      (one, other) => rank(one.read.unit, usual) - rank(other.read.unit, usual),
    );
    const begun = written.slice(numberEnd);
    const filter = begun === '' ? { filter: written } : {};
    return {
      proposals: ranked.map(({ read, about }) => ({ ...proposal(read.text, about, schema), ...filter })),
      incomplete: begun !== '' && begun.trim() === '',
    };
  }
  return none;
}

/** Where a number may end and its unit begin, the last first: `5 m^3` may be the begin of `5 m^3/h`. */
function numberEnds(written: string): number[] {
  return [...written.matchAll(/\d(?!\d)/g)]
    .map(({ index }) => index + 1)
    .slice(-3)
    .toReversed();
}

function candidatesFor(written: string, numberEnd: number, dimension: Dimension): Candidate[] {
  const begun = written.slice(numberEnd).trim();
  const blank = written.slice(numberEnd, written.length - written.slice(numberEnd).trimStart().length);
  const head = written.slice(0, numberEnd) + (begun ? blank : blank || ' ');
  const { units, title } = dimensions[dimension] as DimensionUnits;
  return units.flatMap((unit) =>
    spellings(unit, begun).flatMap((spelling) => {
      const read = readQuantity(head + spelling, dimension);
      return isQuantity(read) && read.unit === unit.name ? { read, about: unit.note ?? title } : [];
    }),
  );
}

/** The name of a unit, and once it is begun its other spellings that go on as it is written. */
function spellings({ name, also = [] }: Unit, begun: string): string[] {
  if (begun === '') return name ? [name] : [];
  const named = name.toLowerCase().startsWith(begun.toLowerCase()) ? [name] : [];
  return [...named, ...also.filter((spelling) => spelling.startsWith(begun))];
}

function rank(unit: string, usual: readonly string[]): number {
  const place = usual.indexOf(unit);
  return place < 0 ? usual.length : place;
}

function proposal(text: string, detail: string, { description = '' }: FieldSchema): Proposal {
  return { label: text, kind: 'unit', detail, documentation: description, insert: text };
}
