import type { Range, TextEdit } from '../text/place.ts';
import { catalogProblems } from './catalog-problems.ts';

export type { TextEdit };

/** Something in the text that keeps a field from being read or makes its reading doubtful, with texts that would mend it. */
export type Problem = {
  code: ProblemCode;
  /** Less than an error where the field was read all the same. */
  severity?: 'warning' | 'information' | 'hint';
  message: string;
  range: Range;
  fixes: ProblemFix[];
  /** Other places it is about. */
  related?: { range: Range; message: string; uri?: string }[];
};

/** A text that would mend a problem; preferred where it is the one meant. */
export type ProblemFix = { title: string; edits: TextEdit[]; preferred: boolean };

/** Each kind of problem: what it is, why it matters, and a text that has it. */
export const problemCodes = {
  'sheet/syntax': {
    title: 'The text is not valid YAML',
    why: 'The broken line and what belongs to it are left out until they can be read; the rest of the sheet is checked, and nothing is called missing that may stand in the broken part. Often a quote, a bracket, a colon or a space is missing, or the line is only half typed.',
    example: 'format: 1\nengine: { cylinders: 8\nfuel: {}\n',
  },
  'sheet/conflict': {
    title: 'The text holds conflict markers',
    why: 'A merge in version control stopped in this file: two versions stand one after the other. Choose what is right and remove the marker lines.',
    example: 'format: 1\n<<<<<<< ours\ntitle: Wagon\n=======\ntitle: Truck\n>>>>>>> theirs\n',
  },
  'sheet/too-large': {
    title: 'The sheet is beyond any reasonable size',
    why: 'Texts of more than 1 MB, and sheets that nest deeper than any build, are not read. A few aliases of aliases can stand for millions of values and would fill the memory. Write the values out, or use fewer layers of aliases.',
    example: undefined,
  },
  'sheet/unreadable': {
    title: 'The file cannot be read',
    why: 'It is not a regular file, not UTF-8 text, larger than any sheet, or its folder keeps it locked. Nothing in it was checked, which does not mean that it is good.',
    example: undefined,
  },
  'sheet/unknown-field': {
    title: 'A field the format does not know',
    why: 'A misspelled field would silently not count. Fields of your own are welcome at the top level under names that begin with `x-`.',
    example: 'format: 1\nfuel-system:\n  pump: { placment: in-tank }\n',
  },
  'sheet/missing-field': {
    title: 'A field that must be there is missing',
    why: 'Without it the rest cannot be read for certain. A sheet needs `format`, an entry under `silence` its rule and reason.',
    example: 'title: Quarry wagon\n',
  },
  'sheet/wrong-type': {
    title: 'A value of the wrong kind',
    why: 'A field takes one kind of value: a text, a number, `true` or `false`, a list, or fields of its own. Words such as `yes` are texts in YAML 1.2, not truth values.',
    example: 'format: 1\nfuel-system:\n  tank: { vent: yes }\n',
  },
  'sheet/unknown-choice': {
    title: 'A word that is not one of the choices of the field',
    why: 'The field has a fixed set of choices, so that figures and rules know what each one means. Completion lists them.',
    example: 'format: 1\nengine:\n  intake: { manifold: dual-plan }\n',
  },
  'sheet/out-of-range': {
    title: 'A value outside what is possible',
    why: 'The value is outside the range in which the field makes sense; often the unit or a digit is wrong. It is left out of the figures until it is corrected.',
    example: 'format: 1\nengine: { redline: 55000 rpm }\n',
  },
  'sheet/quantity': {
    title: 'A quantity that cannot be read',
    why: 'A quantity is a number and a unit of the right dimension, so that nobody has to guess: `350 hp`, `43.5 psi`, `1 3/4 in`, `40 degC`, `12 AWG`, with a tolerance if need be: `350 +/- 15 hp`, `1.2..1.4 ms`. Pressures are gauge unless the field says absolute.',
    example: 'format: 1\nsite: { altitude: 900 }\nengine: { idle: 750 psi }\n',
  },
  'sheet/two-readings': {
    title: 'A value that can be read in two ways',
    why: 'In many countries a point parts thousands: `1.200 m` may mean 1.2 m or 1200 m. And a vacuum gauge counts inches of mercury down from the air, while an absolute pressure counts up from nothing. The value is read as it stands, with a decimal point, up from nothing; write it so that it can be read in one way only.',
    example: 'format: 1\nsite: { altitude: 1.200 m }\nengine: { idle-manifold-pressure: 18 inHg }\n',
  },
  'sheet/old-format': {
    title: 'A version of the format this tool does not read',
    why: 'The `format` field names the version of the format, so that a later tool can still read an older sheet and never misreads a newer one.',
    example: 'format: 7\n',
  },
  'house/unreadable': {
    title: 'House rules cannot be read',
    why: 'A `build-sheet.config.yaml` that should hold for this sheet is not a regular file, is larger than house rules ever are, or is not valid YAML. What it says does not count until it is mended, so limits and severities may differ from what you expect.',
    example: undefined,
  },
  'house/unknown-rule': {
    title: 'House rules name a rule that does not exist',
    why: 'A misspelled rule id would silently change nothing. Completion lists the rules.',
    example: undefined,
  },
  'house/off-without-reason': {
    title: 'A rule is switched off without a reason',
    why: 'Whoever reads the sheets later must know why a check is missing. Until a reason is given the rule stays on.',
    example: undefined,
  },
  ...catalogProblems,
} as const;

export type ProblemCode = keyof typeof problemCodes;
