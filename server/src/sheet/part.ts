import type { Problem } from './problem.ts';
import type { Path } from './schema.ts';

/**
 * What is remembered of an entry whose text is read by itself, as long as that text stays the same. It holds wherever the
 * text stands: paths begin within the entry, places are counted as if it stood `at`.
 */
export type Part = {
  /** As the schema check wants it. */
  plain?: { value: unknown };
  /** The fields in it that are left empty. */
  empty?: readonly Path[];
  /** What was read of it as the schema has it, where nothing in it breaks the schema. */
  read?: { value: unknown; problems: readonly Problem[]; unread: readonly Path[]; at: number };
  /** Its newest value, or that of the text before in its place; what is the same stays the same object. */
  value?: unknown;
};
