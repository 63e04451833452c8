import type { YAMLError } from 'yaml';
import type { Range } from './entry.ts';
import { endOfLine, startOfLine } from './lines.ts';
import type { Problem } from './problem.ts';

/** What is wrong with the YAML itself, one problem a line. */
export function syntaxProblems(errors: readonly YAMLError[], text: string): Problem[] {
  const told = new Set<number>();
  return errors.flatMap((error) => {
    const range = placeOf(error, text);
    const line = startOfLine(text, range.start);
    if (told.has(line)) return [];
    told.add(line);
    return { code: 'sheet/syntax' as const, message: messageOf(error), range, fixes: [] };
  });
}

const CLOSING = /end with a (\S)$/;

const MESSAGES: Partial<Record<YAMLError['code'], string>> = {
  BAD_ALIAS: 'No anchor of that name stands above.',
  BAD_COLLECTION_TYPE: 'Only fields can be merged: write an alias of a mapping.',
  BAD_DQ_ESCAPE: 'A backslash in double quotes begins an escape; write it twice, or use single quotes.',
  BAD_INDENT: 'This line is not indented like its neighbors.',
  BAD_SCALAR_START: 'A value cannot begin with this character; put the value in quotes.',
  BLOCK_AS_IMPLICIT_KEY: 'A value with `: ` in it needs quotes; fields of its own begin on a line of their own.',
  BLOCK_IN_FLOW: 'Inside braces and brackets, fields are written as `name: value` with commas between.',
  DUPLICATE_KEY: 'This field is already written above; keep one of the two.',
  MISSING_CHAR: 'Something is missing here: a `:`, a comma, a quote, or a closing bracket or brace.',
  MULTILINE_IMPLICIT_KEY: 'This does not fit here: look for a missing `:` or a wrong indent.',
  MULTIPLE_DOCS: 'A build sheet holds one document; move what follows `---` to a file of its own.',
  NON_STRING_KEY: 'The name of a field is a plain word.',
  RESOURCE_EXHAUSTION: 'This nests deeper than any build sheet does.',
  TAB_AS_INDENT: 'Indent with spaces, not tabs.',
  UNEXPECTED_TOKEN: 'This does not belong here.',
};

function messageOf({ code, message }: YAMLError): string {
  const closing = CLOSING.exec(message)?.[1];
  if (closing) return `A closing \`${closing}\` is missing.`;
  if (message.startsWith('Missing closing')) return 'A closing quote is missing.';
  return MESSAGES[code] ?? `This is not valid YAML: ${message}.`;
}

/** The stretch in question: to the end of its line at most, a whole word where only its beginning is known. */
function placeOf({ pos }: YAMLError, text: string): Range {
  const from = Math.min(pos[0], text.length);
  const lineEnd = endOfLine(text, from);
  const rest = text.slice(from, lineEnd);
  const start = from + (/^ */.exec(rest)?.[0].length ?? 0);
  if (start === lineEnd) return beforeGap(text, from);
  const word = /^[\w-]+/.exec(text.slice(start, lineEnd))?.[0].length ?? 1;
  return { start, end: Math.max(start + word, Math.min(pos[1], lineEnd)) };
}

/** Where nothing is written, the last character before it, so that an editor has something to mark. */
function beforeGap(text: string, offset: number): Range {
  const end = text.slice(0, offset).trimEnd().length;
  return end > 0 ? { start: end - 1, end } : { start: 0, end: Math.min(1, text.length) };
}
