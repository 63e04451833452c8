/** One thing that could be written. */
export type Proposal = {
  label: string;
  kind: 'field' | 'choice' | 'value' | 'unit' | 'sheet';
  detail: string;
  documentation: string;
  /** The text to write, with the indentation it has to have. */
  insert: string;
  /** What the text at the cursor has to be like for this to be offered, if not like the label. */
  filter?: string;
  /** Where in that text the cursor goes on, if not at its end. */
  cursor?: number;
};
