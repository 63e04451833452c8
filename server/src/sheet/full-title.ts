import { type FieldPath, fieldSchema, stepsOf } from './path.ts';

/** A field as it stands within a sentence, with the part it is of: `length of the feed line`, `charging voltage`. */
export function fullTitle(field: FieldPath): string {
  const steps = stepsOf(field);
  const title = titleOf(field) ?? String(steps.at(-1));
  if (steps.length < 3) return title;
  const part = titleOf(steps.slice(0, -1).join('.') as FieldPath);
  return part ? `${title} of the ${part}` : title;
}

function titleOf(field: FieldPath): string | undefined {
  const title = fieldSchema(field)?.title;
  return title && (/^[A-Z]{2}/.test(title) ? title : title.charAt(0).toLowerCase() + title.slice(1));
}
