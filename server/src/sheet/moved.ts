import { YAMLParseError } from 'yaml';
import type { Range } from '../text/place.ts';
import type { Entry } from './entry.ts';
import type { Part } from './part.ts';
import type { Problem } from './problem.ts';
import type { FieldSchema, Path } from './schema.ts';

/**
 * An entry as it is where its text stands `by` so many characters further on, at a path of the same length. What is within
 * is worked out when it is looked at.
 */
export function moved(entry: Entry, by: number, path: Path): Entry {
  const { source, by: before } = entry instanceof Moved ? entry : { source: entry, by: 0 };
  const isHere = path.every((step, index) => step === source.path[index]);
  return by + before === 0 && isHere ? source : new Moved(source, by + before, isHere ? source.path : path);
}

class Moved implements Entry {
  readonly schema: FieldSchema | undefined;
  readonly kind: Entry['kind'];
  readonly part: Part | undefined;
  private within: Entry[] | undefined;

  constructor(
    readonly source: Entry,
    readonly by: number,
    readonly path: Path,
  ) {
    this.schema = source.schema;
    this.kind = source.kind;
    this.part = source.part;
  }

  get key(): Range | undefined {
    return this.source.key && movedRange(this.source.key, this.by);
  }

  get value(): Range {
    return movedRange(this.source.value, this.by);
  }

  get anchored(): Range | undefined {
    return this.source.anchored && movedRange(this.source.anchored, this.by);
  }

  get flow(): boolean {
    return this.source.flow;
  }

  get inherited(): boolean {
    return this.source.inherited;
  }

  get scalar(): unknown {
    return this.source.scalar;
  }

  get quote(): Entry['quote'] {
    return this.source.quote;
  }

  get children(): Entry[] {
    this.within ??= this.source.children.map((inner) =>
      moved(inner, this.by, this.path === this.source.path ? inner.path : [...this.path, ...inner.path.slice(-1)]),
    );
    return this.within;
  }
}

function movedRange({ start, end }: Range, by: number): Range {
  return { start: start + by, end: end + by };
}

/** A problem that stands `by` so many characters further on. */
export function movedProblem(problem: Problem, by: number): Problem {
  if (by === 0) return problem;
  const { range, fixes, related } = problem;
  return {
    ...problem,
    range: movedRange(range, by),
    fixes: fixes.map((fix) => ({ ...fix, edits: fix.edits.map((edit) => ({ ...edit, ...movedRange(edit, by) })) })),
    ...(related && { related: related.map((other) => ({ ...other, range: movedRange(other.range, by) })) }),
  };
}

/** An error that stands `by` so many characters further on. */
export function movedError({ pos: [start, end], code, message }: YAMLParseError, by: number): YAMLParseError {
  return new YAMLParseError([start + by, end + by], code, message);
}
