import { type Document, parseDocument } from 'yaml';
import { compose, TooLarge } from './compose.ts';
import { inEveryStretch } from './cuts.ts';
import type { Entry } from './entry.ts';
import type { FieldSchema } from './schema.ts';

/** Most characters of a text that is read; a build sheet has some thousands. */
export const MOST_CHARACTERS = 1_000_000;
/** Most characters of a catalog that is read; one of 5,000 parts has less than two millions. */
export const MOST_CATALOG = 12_000_000;
const MOST_OPEN = 500;

/**
 * What is wrong in the order of the text; `isLocal`: whether every part that has nothing wrong would be read the same by
 * itself, if it can be cut out.
 */
export type Parsed = { root: Entry; errors: Document['errors']; isLocal: boolean };

/**
 * A text as YAML reads it, with the tree of its entries and what is wrong with it. A lone CR ends a line as YAML has it.
 * @throws TooLarge
 */
export function parse(text: string, schema: FieldSchema | undefined): Parsed {
  const document = parseDocument(text.replaceAll(/\r(?!\n)/g, '\n'), {
    merge: true,
    prettyErrors: false,
    logLevel: 'error',
    uniqueKeys: false,
  });
  const { root, isLocal } = compose(document, schema);
  if (document.errors.some(({ code }) => code === 'RESOURCE_EXHAUSTION')) throw new TooLarge(TOO_DEEP);
  const errors = document.errors.toSorted((one, other) => one.pos[0] - other.pos[0]);
  return { root, errors, isLocal };
}

const TOO_DEEP = 'This sheet nests deeper than any build sheet does.';

/** Why a text is refused before anything of it is parsed, if it is. */
export function refusal(text: string, most = MOST_CHARACTERS): string | undefined {
  if (text.length > most)
    return `This text is longer than ${most / 1_000_000} MB; no ${most > MOST_CHARACTERS ? 'catalog' : 'build sheet'} is. It is not read.`;
  return nestsTooDeep(text) ? TOO_DEEP : undefined;
}

/** Stretches that close every bracket they open, and open few. */
const shallow = new WeakSet<object>();

/**
 * Whether brackets, or dashes and marks on one line, open more levels than a parser should be asked to follow. A stretch
 * that closes what it opens is looked at once.
 */
function nestsTooDeep(text: string): boolean {
  return !inEveryStretch(text, shallow, (part) => opened(part) === 0) && opened(text) === undefined;
}

/** How many brackets are left open at the end; nothing where too many levels are. */
function opened(text: string): number | undefined {
  let open = 0;
  let marks = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (isLetterOrSpace(code)) continue;
    if (code === 0x5b || code === 0x7b) open++;
    else if ((code === 0x5d || code === 0x7d) && open > 0) open--;
    else if (code === 0x0a) marks = 0;
    else if ((code === 0x2d || code === 0x3f || code === 0x3a) && text.charCodeAt(index + 1) === 0x20) marks++;
    if (open > MOST_OPEN || marks > 20 * MOST_OPEN) return undefined;
  }
  return open;
}

/** Most of a text, told at one glance. */
function isLetterOrSpace(code: number): boolean {
  return code === 0x20 || (code >= 0x61 && code <= 0x7a);
}
