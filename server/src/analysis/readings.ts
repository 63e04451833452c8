import type { LoggedReading } from '../sheet/with-logs.ts';
import { isQuantityValue, type Quantity } from '../units/quantity.ts';
import { type Leaf, reading } from './node.ts';
import type { Source } from './source.ts';

/** What was read on the finished car on one day. */
export type Reading = LoggedReading;

/** A field of a reading that is a quantity. */
export type ReadField = { [K in keyof Reading]-?: NonNullable<Reading[K]> extends Quantity ? K : never }[keyof Reading];

/** A reading of a stage and its place in the list. */
export type Numbered = { reading: Reading; index: number };

type Stage = Pick<Source['stage'], 'index' | 'name' | 'values'>;

const byStage = new WeakMap<object, Map<string, readonly Numbered[]>>();

/** The readings taken while the car was in a stage, the earliest first; those that name no stage are of the first. */
export function readingsIn({ index, name, values }: Stage): readonly Numbered[] {
  const list = values.measured;
  if (!Array.isArray(list)) return [];
  const known = byStage.get(list) ?? new Map<string, readonly Numbered[]>();
  byStage.set(list, known);
  const key = `${index} ${name}`;
  let found = known.get(key);
  if (!found) {
    found = list
      .flatMap((reading, at): Numbered[] => (typeof reading === 'object' && reading ? [{ reading, index: at }] : []))
      .filter(({ reading: { stage } }) => (stage === undefined || stage === null ? index === 0 : stage === name))
      .toSorted((one, other) => dayOf(one.reading).localeCompare(dayOf(other.reading)));
    known.set(key, found);
  }
  return found;
}

/** A day as year, month and day, so that days compare as texts; nothing for a date written otherwise. */
function dayOf({ date }: Reading): string {
  return /^\d{4}-\d{2}-\d{2}/.test(date ?? '') ? date : '';
}

/** The latest reading of a stage that has a field. */
export function latestWith(stage: Stage, field: keyof Reading): Numbered | undefined {
  return readingsIn(stage).findLast(({ reading }) => reading[field] !== undefined && reading[field] !== null);
}

/** Whether a value was read in the stage. */
export function isRead(field: ReadField): Leaf<boolean> {
  const raw = ({ stage }: Source) => latestWith(stage, field) !== undefined;
  return reading<boolean>(`measured.${field} given`, raw, ({ source }) => ({ value: raw(source), terms: [] }));
}

/** A quantity that goes with the latest reading of a field, such as the speed at which a duty cycle was read. */
export function readWith(field: ReadField, other: ReadField, symbol: string, name: string): Leaf<number> {
  const raw = ({ stage }: Source) => latestWith(stage, field)?.reading[other];
  return reading<number>(`measured.${other} with ${field}`, raw, ({ source, pick }) => {
    const found = latestWith(source.stage, field);
    const quantity = found?.reading[other];
    if (!found || !isQuantityValue(quantity)) return { lacks: [] };
    const term = { symbol, name, value: pick(quantity), dimension: quantity.dimension };
    return { value: term.value, terms: [{ ...term, field: ['measured', found.index, other] }] };
  });
}

/** A word that goes with the latest reading of a field, or the usual one. */
export function wordWith<T extends string>(field: ReadField, other: keyof Reading, symbol: string, usual: T): Leaf<T> {
  const raw = ({ stage }: Source) => latestWith(stage, field)?.reading[other];
  return reading<T>(`measured.${other} with ${field}`, raw, ({ source }) => {
    const found = latestWith(source.stage, field);
    const said = found?.reading[other];
    const value = typeof said === 'string' ? (said as T) : usual;
    const name = String(other).replaceAll('-', ' ');
    const term = { symbol, name, value: 0, dimension: 'ratio-number' as const, text: value };
    const from =
      said === undefined || !found
        ? { assumed: 'not said with the reading' }
        : { field: ['measured', found.index, other] };
    return { value, terms: [{ ...term, ...from }] };
  });
}
