/** What the server puts to whoever knows the car; the fields of `PutQuestion` that are shown here. */
export type Question = {
  text: string;
  at: string;
  unit: string;
  example: string;
  choices: readonly { value: string; meaning: string }[];
  usual?: { value: string; because: string };
  written?: string;
  left: number;
};

export type Reply = { answer: string } | 'unknown' | 'keep' | 'back';

/** What a reply led to, with what is asked next. */
export type Turn<Edit> = { asking: object; edit?: Edit; refusal?: string; question?: Question };
