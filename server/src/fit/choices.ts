import { type FieldPath, fieldSchema } from '../sheet/path.ts';
import { type Broken, brokenBy, type Trials } from './trials.ts';

/** A word or truth that a field may take, and what it would break in the build. */
export type Tried = { value: string | boolean; broken: readonly Broken[] };

/** Every choice of a field; what every one of them breaks, another field must mend, and is left out. */
export function choicesOf(trials: Trials, field: FieldPath): Tried[] {
  const schema = fieldSchema(field);
  const options = (schema?.enum ?? (schema?.type === 'boolean' ? [true, false] : [])) as (string | boolean)[];
  const tried = options.flatMap((value) => {
    const broken = brokenBy(trials, field, value);
    return broken ? [{ value, broken }] : [];
  });
  const isStanding = ({ rule, stage }: Broken) =>
    tried.every(({ broken }) => broken.some((other) => other.rule === rule && other.stage === stage));
  return tried.map(({ value, broken }) => ({ value, broken: broken.filter((one) => !isStanding(one)) }));
}
