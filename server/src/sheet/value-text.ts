import { parseDocument } from 'yaml';
import type { NewValue } from './edit.ts';

/** Longest value that is read by itself. */
const MOST = 2000;

/** A value as it would stand after a key on one line; nothing where it cannot stand there. */
export function valueOfText(text: string): NewValue | undefined {
  if (text.length > MOST || /[\r\n]/.test(text)) return undefined;
  const document = parseDocument(`value: ${text}`, { prettyErrors: false, logLevel: 'silent', merge: false });
  if (document.errors.length > 0 || /(^|[\s,[{])[&*!]/.test(text)) return undefined;
  const value: unknown = document.toJS({ maxAliasCount: 0 }).value ?? null;
  return isNewValue(value) ? value : undefined;
}

function isNewValue(value: unknown): value is NewValue {
  if (value === null || ['string', 'number', 'boolean'].includes(typeof value)) return true;
  if (Array.isArray(value)) return value.every(isNewValue);
  return typeof value === 'object' && Object.values(value as object).every(isNewValue);
}
