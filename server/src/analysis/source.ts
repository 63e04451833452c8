import { antiknockIndex, type OctaneKind } from '../engineering/octane.ts';
import type { Limits } from '../generated/build-sheet.ts';
import { pathText } from '../sheet/entry.ts';
import type { House } from '../sheet/house.ts';
import { type FieldPath, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import type { StageSheet } from '../sheet/stages.ts';
import type { Quantity } from '../units/quantity.ts';

/** Why something is assumed that the sheet does not say, and where it would stand. */
export type Assumption = { place: Path; because: string };

/** Where the nodes of one stage read: the sheet as it is in the stage, and the house rules behind it. */
export type Source = {
  readonly stage: StageSheet;
  read(path: FieldPath): unknown;
  /** Where the text says what holds at a field in this stage. */
  place(path: FieldPath): Path;
  limit(name: keyof Limits & string): Quantity | number | undefined;
  /** Why what is read at a field is assumed, if it is. */
  because(path: FieldPath): string | undefined;
  /** Whether a field that is not there may stand in a part of the text that could not be read. */
  isUnread(path: FieldPath): boolean;
};

const converted = new WeakMap<Quantity, Quantity>();

/** A bare octane number as the kind the house uses. */
function inKindOfHouse(values: StageSheet['values'], { octane: kind = 'AKI' }: House): StageSheet['values'] {
  const { fuel } = values;
  if (kind === 'AKI' || fuel?.octane?.unit !== '') return values;
  const bare = fuel.octane;
  const known = converted.get(bare) ?? ofKind(bare, kind);
  converted.set(bare, known);
  return { ...values, fuel: { ...fuel, octane: known } };
}

function ofKind(bare: Quantity, kind: OctaneKind): Quantity {
  const { value, low, high } = bare;
  return {
    ...bare,
    value: antiknockIndex(value, kind),
    low: antiknockIndex(low, kind),
    high: antiknockIndex(high, kind),
  };
}

/** The values of a stage; the house's fuel stands for a sheet that names none. */
export function sourceOf(stage: StageSheet, house: House, assumed: readonly Assumption[] = []): Source {
  const { values } = stage;
  const reasons = new Map(assumed.map(({ place, because }) => [pathText(place), because]));
  const withFuel = inKindOfHouse(values.fuel || !house.fuel ? values : { ...values, fuel: house.fuel }, house);
  return {
    stage,
    read: (path) => {
      const steps = stepsOf(path);
      return steps[0] === 'stages' ? valueAt(stage.stage, steps, 1) : valueAt(withFuel, steps);
    },
    place: (path) => stage.placeOf(path),
    isUnread: (path) => !stage.isWhole && stage.isUnread(path),
    because: (path) => (reasons.size > 0 ? reasons.get(pathText(stage.placeOf(path))) : undefined),
    limit: (name) => values.limits?.[name] ?? house.limits?.[name],
  };
}
