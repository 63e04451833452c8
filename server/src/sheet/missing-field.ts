import { newline, startOfLine } from '../text/lines.ts';
import type { Entry, Range } from './entry.ts';
import { nameOf } from './field-words.ts';
import { NEWEST_FORMAT } from './format.ts';
import type { Problem } from './problem.ts';
import { meantField } from './unknown-field.ts';

const FORMAT = `format: ${NEWEST_FORMAT}`;

/** A field that must be there and is not, unless one beside it stands for it. */
export function missingField(entry: Entry, name: string, text: string): Problem | undefined {
  if (entry.children.some(({ path }) => meantField(entry, String(path.at(-1))) === name)) return undefined;
  const first = entry.children.find(({ key, inherited }) => key && !inherited)?.key;
  return {
    code: 'sheet/missing-field',
    message: `${entry.path.length === 0 ? 'This sheet' : nameOf(entry, true)} needs a field "${name}".`,
    range: entry.key ?? first ?? { start: entry.value.start, end: entry.value.end },
    fixes: name === 'format' ? formatFix(entry, first, text) : [],
  };
}

/** Writes the version of the format before the first field. */
function formatFix(entry: Entry, first: Range | undefined, text: string): Problem['fixes'] {
  const eol = newline(text);
  const edit = entry.flow ? inBraces(entry, text) : onItsLine(first, text, eol);
  return edit ? [{ title: `Add "${FORMAT}"`, edits: [edit], preferred: true }] : [];
}

function inBraces({ value, children }: Entry, text: string) {
  if (text[value.start] !== '{') return undefined;
  const at = value.start + 1;
  return { start: at, end: at, text: children.length > 0 ? ` ${FORMAT},` : ` ${FORMAT}` };
}

/** On the line above the first field, whatever stands before that field in its line. */
function onItsLine(first: Range | undefined, text: string, eol: string) {
  if (!first) {
    const lead = text === '' || /[\r\n\ufeff]$/.test(text) ? '' : eol;
    return { start: text.length, end: text.length, text: `${lead}${FORMAT}${eol}` };
  }
  const line = startOfLine(text, first.start);
  const lead = /^\ufeff?( *)/.exec(text.slice(line, first.start));
  const at = line + (lead?.[0].length ?? 0);
  return { start: at, end: at, text: `${FORMAT}${eol}${lead?.[1] ?? ''}` };
}
