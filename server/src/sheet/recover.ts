import type { YAMLError } from 'yaml';
import { endOfLine, startOfLine } from '../text/lines.ts';
import { type Break, brokenStretch } from './broken-stretch.ts';
import type { Entry } from './entry.ts';
import type { Parsed } from './parse.ts';

/** What could be read of a text, what is wrong with its YAML, and the stretches that had to be left out. */
export type Recovered = { root: Entry; errors: YAMLError[]; breaks: Break[]; tabs: number[] };

const MOST_ROUNDS = 8;

/** What the text keeps of its meaning when an error is told of one value only. */
const LOCAL = new Set<YAMLError['code']>([
  'BAD_ALIAS',
  'BAD_COLLECTION_TYPE',
  'BAD_DQ_ESCAPE',
  'DUPLICATE_KEY',
  'MULTIPLE_DOCS',
  'NON_STRING_KEY',
]);

/**
 * Reads what can be read of a text. A broken line is replaced by as many spaces, with what belongs to it, and the rest is
 * read again, so that places stay and nothing that is left comes from broken text.
 * @throws TooLarge
 */
export function recover(text: string, parsed: (text: string) => Parsed): Recovered {
  const breaks: Break[] = [];
  const tabs: number[] = [];
  let readable = text;
  for (let round = 0; ; round++) {
    const { root, errors } = parsed(readable);
    const broken = errors.filter(({ code }) => !LOCAL.has(code));
    if (broken.length === 0) return { root, errors, breaks, tabs };
    if (tabs.length === 0 && broken.some((error) => isAboutTab(error, readable))) {
      tabs.push(...indentingTabs(readable));
      readable = spaced(readable, tabs);
      if (tabs.length > 0) continue;
    }
    for (const error of firstOfEachSection(broken, readable)) {
      const found = round < MOST_ROUNDS ? brokenStretch(error, readable, root) : undefined;
      const stretch = found ?? { ...sectionAt(readable, error.pos[0], round > MOST_ROUNDS), error, indent: undefined };
      if (!tabs.some((tab) => startOfLine(text, tab) === startOfLine(text, stretch.start))) breaks.push(stretch);
      readable = blanked(readable, stretch);
    }
  }
}

function isAboutTab({ code, pos }: YAMLError, text: string): boolean {
  if (code === 'TAB_AS_INDENT') return true;
  const start = startOfLine(text, pos[0]);
  return /^ *\t/.test(text.slice(start, endOfLine(text, pos[1])));
}

/** Where tabs stand among the indentation of a line that says something. */
function indentingTabs(text: string): number[] {
  return [...text.matchAll(/^[ \t]*\t[ \t]*(?=[^\s#])/gm)].flatMap(({ 0: lead, index }) =>
    [...lead].flatMap((character, column) => (character === '\t' ? [index + column] : [])),
  );
}

function spaced(text: string, tabs: readonly number[]): string {
  const characters = text.split('');
  for (const tab of tabs) characters[tab] = ' ';
  return characters.join('');
}

/** Errors of one section often follow from its first. */
function firstOfEachSection(errors: readonly YAMLError[], text: string): YAMLError[] {
  const bySection = new Map<number, YAMLError>();
  for (const error of errors) {
    const { start } = sectionAt(text, error.pos[0], false);
    if (!bySection.has(start)) bySection.set(start, error);
  }
  return [...bySection.values()].toSorted((one, other) => other.pos[0] - one.pos[0]);
}

/** From the last line that begins at the margin to the next one; the whole text where that did not help. */
function sectionAt(text: string, offset: number, whole: boolean) {
  if (whole) return { start: 0, end: text.length };
  const from = startOfLine(text, Math.min(offset, text.length));
  const isMargin = /^[^\s#]/.test(text.slice(from, from + 1));
  const above = isMargin ? from : ([...text.slice(0, from).matchAll(/^[^\s#]/gm)].at(-1)?.index ?? 0);
  const below = /^[^\s#]/m.exec(text.slice(endOfLine(text, from)))?.index;
  return { start: above, end: below === undefined ? text.length : endOfLine(text, from) + below };
}

/**
 * The text with spaces for a stretch. Line ends stay, and so does what comes before the mistake and makes the stretch an
 * item or a field: its dash, or its name where only the value is wrong.
 */
function blanked(text: string, { start, end, error, indent }: Break): string {
  const line = text.slice(start, endOfLine(text, start));
  const lead = /^\s*(?:- +)*(?:[A-Za-z][\w-]*\s*:(?=\s))?/.exec(line)?.[0].length ?? 0;
  const dash = /^\s*(?:- +)*/.exec(line)?.[0].length ?? 0;
  const kept = [lead, dash].find((length) => indent === undefined && start + length <= error.pos[0]) ?? 0;
  return spaces(text, start + kept, end) ?? spaces(text, start, end) ?? text;
}

/** Nothing where there is none but spaces already; a byte order mark or a no-break space is no space to YAML. */
function spaces(text: string, from: number, to: number): string | undefined {
  const stretch = text.slice(from, to);
  return /^[ \r\n]*$/.test(stretch)
    ? undefined
    : text.slice(0, from) + stretch.replaceAll(/[^\r\n]/g, ' ') + text.slice(to);
}
