/** What the panel and the extension say to one another, as plain data. */

export type Range = { start: { line: number; character: number }; end: { line: number; character: number } };
export type Setting = { field: string; value: string };

/** How much of its limit a figure takes, 1 being all of it, and over its tolerance from `low` to `high`. */
export type Bar = { share: number; low: number; high: number; limit: string };
export type Cell = { text: string; isMissed: boolean; isOther: boolean; bar?: Bar };

/** A figure over the columns; `places` are numbers of the places that the figures have in all. */
export type Row = { figure: string; name: string; places: readonly number[]; cells: readonly (Cell | null)[] };
export type Topic = { heading: string; rows: readonly Row[] };
export type Column = { stage: string; kind: 'now' | 'was' | 'tried' };

export type Figures = {
  title: string;
  version: number;
  columns: readonly Column[];
  places: readonly Range[];
  topics: readonly Topic[];
  findings: readonly { severity: string; message: string; stages: string; range: Range }[];
  tried?: { found: readonly string[]; gone: readonly string[] };
  refusal?: string;
};

export type Drawing = {
  svg: string;
  caption: string;
  numbers: { head: readonly string[]; rows: readonly (readonly string[])[] };
};

/** What takes longer than the figures and is worked out only where it is open, in the order in which it is worked out. */
export const sectionNames = ['questions', 'curves', 'ladder'] as const;
export type SectionName = (typeof sectionNames)[number];
export type Section = { questions: { texts: readonly string[]; left: number } } | { drawings: readonly Drawing[] };

/** A field another value can be tried for: its value now, empty where it has none, and its choices where it has some. */
export type Triable = { field: string; value: string; choices: readonly string[] };

/** With what the figures are compared; what there is to choose among, in words, the editor around the panel says. */
export type Beside = 'nothing' | 'saved' | 'commit';
export type Besides = { nothing: string } & Partial<Record<Beside, string>>;

/**
 * What the panel is to show, kept over a reload of the window. `shut`: the headings of topics and the sections that are
 * folded. `turn` counts the changes, so that an answer to an earlier state is known.
 */
export type State = {
  uri: string;
  settings: readonly Setting[];
  beside: Beside;
  onlyOther: boolean;
  shut: readonly string[];
  turn: number;
};

export const beginning: State = {
  uri: '',
  settings: [],
  beside: 'nothing',
  onlyOther: false,
  shut: ['ladder', 'curves'],
  turn: 0,
};

export type ToPanel =
  | { kind: 'figures'; state: State; besides: Besides; figures: Figures; note?: string }
  | { kind: 'section'; name: SectionName; section: Section }
  | { kind: 'triable'; fields: readonly Triable[] }
  | { kind: 'nothing'; text: string }
  | { kind: 'cursor'; line: number; character: number };

export type FromPanel =
  | { kind: 'ready' }
  | { kind: 'reveal'; range: Range }
  | { kind: 'ask' }
  | { kind: 'write' }
  | { kind: 'triable' }
  | { kind: 'state'; state: Omit<State, 'uri'> };
