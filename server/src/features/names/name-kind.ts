import type { Entry } from '../../sheet/entry.ts';
import type { TextEdit } from '../../sheet/problem.ts';
import type { Range } from '../../text/place.ts';

/** A text that was read. */
export type NamedText = { text: string; root: Entry };

/** A name where it stands. */
export type Occurrence = {
  name: string;
  /** The name alone, without quotes or signs. */
  range: Range;
  role: 'given' | 'used';
  /** The same for all occurrences of one thing. */
  thing: string;
};

/** A kind of thing that is named in a text and referred to by its name; one entry of `nameKinds` each. */
export type NameKind = {
  id: 'stage' | 'anchor';
  occurrences(sheet: NamedText): Occurrence[];
  /** Why a name cannot be given, in one sentence, where others are taken. */
  refusal(name: string, taken: ReadonlySet<string>): string | undefined;
  /** The edits that write another name where it stands. */
  renamed(sheet: NamedText, occurrences: readonly Occurrence[], name: string): TextEdit[] | undefined;
  /** What such a name is made of, as a regular expression. */
  pattern: string;
};
