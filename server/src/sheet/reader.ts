import type { Chunked } from './chunk-match.ts';
import { kept, sameList } from './kept.ts';
import { MOST_CHARACTERS } from './parse.ts';
import { parseAgain } from './parse-again.ts';
import { readText, type Sheet } from './read.ts';
import type { FieldSchema } from './schema.ts';
import type { Validate } from './schema-problems.ts';

/**
 * Reads one version of a text after another, each as `readText` does; what an edit does not touch is taken over, and values
 * that are the same stay the same object.
 */
export class Reader<Values> {
  private chunked: Chunked | undefined;
  private values: Partial<Values> = {};

  constructor(
    private readonly schema: FieldSchema,
    private readonly validate: Validate,
    private readonly most = MOST_CHARACTERS,
  ) {}

  read(text: string): Sheet<Values> {
    let isByChunks = false;
    const parsedAgain = (readable: string) => {
      const { parsed, chunked, isAgain } = parseAgain(readable, this.schema, this.chunked);
      isByChunks = isAgain;
      this.chunked = chunked ?? this.chunked;
      return parsed;
    };
    const sheet = readText<Values>(text, this.schema, this.validate, parsedAgain, this.most);
    this.values = isByChunks ? withSameLists(this.values, sheet.values) : kept(this.values, sheet.values);
    return { ...sheet, values: this.values };
  }

  /** A reader that starts from what this one knows and leaves it as it is, for texts that are only tried. */
  fork(): Reader<Values> {
    const fork = new Reader<Values>(this.schema, this.validate, this.most);
    fork.chunked = this.chunked;
    fork.values = this.values;
    return fork;
  }
}

function withSameLists<Values>(before: Partial<Values>, now: Partial<Values>): Partial<Values> {
  const same = Object.entries(now).map(([name, value]) => [
    name,
    Array.isArray(value) ? sameList(before[name as keyof Values], value) : value,
  ]);
  return Object.fromEntries(same) as Partial<Values>;
}
