/** What the panel and the extension say to one another, as plain data. */

export type Range = { start: { line: number; character: number }; end: { line: number; character: number } };
export type Setting = { field: string; value: string };
export type Cell = { text: string; isMissed: boolean; isOther: boolean; bar?: { share: number; limit: string } };
export type Row = { figure: string; name: string; places: readonly Range[]; cells: readonly (Cell | null)[] };

export type Figures = {
  title: string;
  version: number;
  columns: readonly { stage: string; kind: 'now' | 'was' | 'tried' }[];
  topics: readonly { heading: string; rows: readonly Row[] }[];
  findings: readonly { severity: string; message: string; stages: string; range: Range }[];
  questions: readonly string[];
  fields: readonly Setting[];
  refusal?: string;
  plots?: readonly { heading: string; svg: string; caption: string }[];
};

/** With what the figures are compared. */
export type Beside = 'nothing' | 'saved' | 'commit';

/** What is kept over a reload of the window. */
export type State = { uri: string; settings: readonly Setting[]; beside: Beside; plots: boolean };

export type ToPanel =
  | { kind: 'figures'; state: State; figures: Figures; note?: string }
  | { kind: 'nothing'; text: string }
  | { kind: 'cursor'; line: number; character: number };

export type FromPanel =
  | { kind: 'ready' }
  | { kind: 'reveal'; range: Range }
  | { kind: 'ask' }
  | { kind: 'write' }
  | { kind: 'state'; settings: readonly Setting[]; beside: Beside; plots: boolean };
