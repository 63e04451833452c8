import { stringify } from 'yaml';

/** What is written into a field; nothing leaves it empty, not known yet. */
export type NewValue = string | number | boolean | null | NewValue[] | { [key: string]: NewValue };

/** Whether a value is a list or has fields. */
export function isNested(value: NewValue): value is NewValue[] | { [key: string]: NewValue } {
  return typeof value === 'object' && value !== null;
}

/** A scalar that stands as it is in lines as well as in braces. */
export function scalar(value: string | number | boolean | null): string {
  if (value === null) return '';
  if (typeof value === 'string' && /[,[\]{}\n]/.test(value)) return JSON.stringify(value);
  return stringify(value, { lineWidth: 0 }).trimEnd();
}

/** A value on one line, what is nested in brackets and braces. */
export function flow(value: NewValue): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (!isNested(value)) return scalar(value);
  return `{ ${Object.entries(value)
    .map(([name, inner]) => `${name}: ${flow(inner)}`.trimEnd())
    .join(', ')} }`;
}

/** Fields as lines; small mappings inside stay on one line. */
export function block(value: NewValue, indent: string, newline: string): string {
  if (Array.isArray(value)) return value.map((item) => `${indent}- ${flow(item)}`).join(newline);
  if (!isNested(value)) return indent + scalar(value);
  return Object.entries(value)
    .map(([name, inner]) => {
      const isDeep =
        isNested(inner) &&
        !Array.isArray(inner) &&
        Object.values(inner).some((one) => isNested(one) && !Array.isArray(one));
      if (!isDeep) return `${indent}${name}: ${isNested(inner) ? flow(inner) : scalar(inner)}`.trimEnd();
      return `${indent}${name}:${newline}${block(inner, `${indent}  `, newline)}`;
    })
    .join(newline);
}
