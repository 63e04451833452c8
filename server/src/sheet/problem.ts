import type { Range } from './entry.ts';

/** A replacement of one stretch of text. */
export type TextEdit = Range & { text: string };

/** Something in the text that keeps a field from being read, with texts that would mend it. */
export type Problem = {
  code: ProblemCode;
  message: string;
  range: Range;
  fixes: { title: string; edits: TextEdit[]; preferred: boolean }[];
};

/** Each kind of problem, with a title for its page. */
export const problemCodes = {
  'sheet/syntax': 'The text is not valid YAML',
  'sheet/conflict': 'The text holds conflict markers of a version-control merge',
  'sheet/too-large': 'Aliases unfold the sheet beyond any reasonable size',
  'sheet/unknown-field': 'A field the format does not know',
  'sheet/missing-field': 'A field that must be there is missing',
  'sheet/wrong-type': 'A value of the wrong kind',
  'sheet/unknown-choice': 'A word that is not one of the choices of the field',
  'sheet/out-of-range': 'A value outside what is possible',
  'sheet/quantity': 'A quantity that cannot be read',
  'sheet/old-format': 'A version of the format this tool does not read',
  'house/unknown-rule': 'House rules name a rule that does not exist',
  'house/off-without-reason': 'A rule is switched off without a reason',
} as const;

export type ProblemCode = keyof typeof problemCodes;
