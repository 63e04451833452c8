import type { Draft, Repair, Situation } from '../checking/rule.ts';
import type { NewValue } from '../sheet/edit.ts';
import { type FieldPath, stepsOf, valueAt } from '../sheet/path.ts';

/** A value of a field that is wrong by what it says, and how it is put right: a title and what is then written. */
export type Declared = {
  field: FieldPath;
  is: string | boolean;
  message: string;
  repair?: readonly [title: string, to: NewValue];
};

/** Every field that says of itself that something is wrong; what is not answered stays open. */
export function declaredFaults({ values }: Situation, faults: readonly Declared[]): Draft[] {
  return faults.flatMap(({ field, is, message, repair }): Draft[] => {
    if (valueAt(values, stepsOf(field)) !== is) return [];
    const repairs: Repair[] = repair ? [{ title: repair[0], set: { [field]: repair[1] } }] : [];
    return [{ at: field, message, repairs }];
  });
}
