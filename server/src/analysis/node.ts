import type { Limits } from '../generated/build-sheet.ts';
import { type FieldPath, fieldSchema } from '../sheet/path.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import type { Absent, Figure, Known, Outcome, Term } from './figure.ts';
import type { Source } from './source.ts';

/** What a node may ask while it is evaluated: other nodes, and, for those that read the sheet, the stage's own values. */
export type Sight = {
  see<T>(node: Node<T>): Outcome<T>;
  readonly source: Source;
  /** The number of a quantity at the end of its tolerance that is computed. */
  readonly pick: (quantity: Quantity) => number;
};

/** A value of one stage with declared inputs, evaluated when it is asked for. */
export type Node<T> = { readonly id: string; evaluate(sight: Sight): Outcome<T> };

/**
 * A node that reads the sheet; `raw` is what stands there, the same object as long as the sheet says the same. `path` is
 * the field whose place its outcome tells.
 */
export type Leaf<T> = Node<T> & { raw(source: Source): unknown; readonly path?: FieldPath };

type From = Readonly<Record<string, Node<unknown>>>;
type ValuesOf<F extends From> = { readonly [K in keyof F]: F[K] extends Node<infer T> ? T : never };

export function isKnown<T>(outcome: Outcome<T>): outcome is Known<T> {
  return 'terms' in outcome;
}

export function isLeaf<T>(node: Node<T>): node is Leaf<T> {
  return 'raw' in node;
}

/** The value of every input and what to show of each, or what keeps them from being known. */
function gather<F extends From>(entries: readonly [string, Node<unknown>][], sight: Sight): Outcome<ValuesOf<F>> {
  const values: Record<string, unknown> = {};
  const terms: Term[] = [];
  let absent: Absent | undefined;
  for (const [name, node] of entries) {
    const outcome = sight.see(node);
    if (isKnown(outcome)) {
      values[name] = outcome.value;
      for (const term of outcome.terms) if (!terms.includes(term)) terms.push(term);
    } else absent = absent ? both(absent, outcome) : outcome;
  }
  return absent ?? { value: values as ValuesOf<F>, terms };
}

function both(one: Absent, other: Absent): Absent {
  const impossible = one.impossible ?? other.impossible;
  return {
    lacks: [...new Set([...one.lacks, ...other.lacks])],
    ...(impossible && { impossible }),
    ...((one.moot || other.moot) && { moot: true }),
    ...((one.unread || other.unread) && { unread: true }),
  };
}

/** Why a value is taken where the sheet says nothing. */
type Usual<T, F extends From> =
  | { value: T; because: string }
  | { from: F; compute: (values: ValuesOf<F>) => T; because: string | ((values: ValuesOf<F>) => string) };

/** A number or quantity of the sheet in SI, or the usual value with its reason. */
export function field<F extends From = Record<never, never>>(
  path: FieldPath,
  symbol: string,
  usual?: Usual<number, F>,
): Leaf<number> {
  const about = aboutField(path);
  return leaf<number, F>(
    path,
    usual,
    (raw, { pick }) => {
      const value = typeof raw === 'number' ? raw : isQuantityValue(raw) ? pick(raw) : undefined;
      return value === undefined ? undefined : { value, term: { symbol, ...about, value } };
    },
    (value) => ({ symbol, ...about, value }),
  );
}

/** A word or a truth of the sheet, or the usual one with its reason. */
export function choice<T extends string | boolean, F extends From = Record<never, never>>(
  path: FieldPath,
  symbol: string,
  usual?: Usual<T, F>,
): Leaf<T> {
  const { name } = aboutField(path);
  const termOf = (word: T): Term => ({ symbol, name, value: 0, dimension: 'ratio-number', text: wordOf(word) });
  return leaf<T, F>(
    path,
    usual,
    (raw) => {
      if (typeof raw !== 'string' && typeof raw !== 'boolean') return undefined;
      return { value: raw as T, term: termOf(raw as T) };
    },
    termOf,
  );
}

function wordOf(word: string | boolean): string {
  if (typeof word === 'string') return word;
  return word ? 'yes' : 'no';
}

/** A list of pairs of quantities, in SI, such as the points of a pump curve. */
export function table(path: FieldPath, symbol: string): Leaf<readonly (readonly [number, number])[]> {
  const { name } = aboutField(path);
  return leaf(path, undefined, (raw, { pick }) => {
    if (!Array.isArray(raw)) return undefined;
    const pairs = (raw as readonly (readonly Quantity[])[]).map(
      ([x, y]) => [x ? pick(x) : Number.NaN, y ? pick(y) : Number.NaN] as const,
    );
    const text = `${pairs.length} points`;
    return { value: pairs, term: { symbol, name, value: 0, dimension: 'ratio-number', text } };
  });
}

type Reading<T> = { value: T; term: Term };

function leaf<T, F extends From>(
  path: FieldPath,
  usual: Usual<T, F> | undefined,
  read: (raw: unknown, sight: Sight) => Reading<T> | undefined,
  termOf?: (value: T) => Term,
): Leaf<T> {
  const from = usual && 'from' in usual ? Object.entries(usual.from) : [];
  const raw = (source: Source) => source.read(path) ?? unreadAt(source, path);
  return {
    id: path,
    path,
    raw,
    evaluate(sight) {
      const found = read(raw(sight.source), sight);
      if (found) return { value: found.value, terms: [{ ...found.term, field: sight.source.place(path) }] };
      if (unreadAt(sight.source, path)) return { lacks: [path], unread: true };
      if (!usual || !termOf) return { lacks: [path] };
      const inputs = gather<F>(from, sight);
      if (!isKnown(inputs)) return inputs;
      const value = 'from' in usual ? usual.compute(inputs.value) : usual.value;
      const because = typeof usual.because === 'string' ? usual.because : usual.because(inputs.value);
      const own = { ...termOf(value), field: sight.source.place(path), assumed: because };
      return { value, terms: [own, ...inputs.terms] };
    },
  };
}

/** Stands for a field that may be written in a part of the text that could not be read. */
const UNREAD = Symbol('unread');

function unreadAt(source: Source, path: FieldPath): typeof UNREAD | undefined {
  return source.isUnread(path) ? UNREAD : undefined;
}

/** Whether the sheet writes a field or section in this stage. */
export function given(path: FieldPath): Leaf<boolean> {
  const raw = (source: Source) => source.read(path) !== undefined || unreadAt(source, path);
  return {
    id: `${path} given`,
    raw,
    evaluate({ source }) {
      const value = raw(source);
      return value === UNREAD ? { lacks: [path], unread: true } : { value: value === true, terms: [] };
    },
  };
}

/** The unit a quantity of the sheet is written in. */
export function writtenIn(path: FieldPath): Leaf<string | undefined> {
  const raw = (source: Source) => {
    const value = source.read(path);
    return isQuantityValue(value) ? value.unit : undefined;
  };
  return { id: `unit of ${path}`, raw, evaluate: ({ source }) => ({ value: raw(source), terms: [] }) };
}

/** A limit: the sheet's own, else the house's, else the default of the schema. */
export function limit(name: keyof Limits & string): Leaf<number> {
  const path = `limits.${name}` as FieldPath;
  const about = aboutField(path);
  const raw = (source: Source) => unreadAt(source, path) ?? source.limit(name);
  const usual = standardLimit(path);
  return {
    id: path,
    path,
    raw,
    evaluate({ source, pick }) {
      const own = raw(source);
      if (own === UNREAD) return { lacks: [path], unread: true };
      const term = { symbol: 'limit', ...about, field: source.place(path) };
      if (own === undefined)
        return { value: usual, terms: [{ ...term, value: usual, assumed: 'common practice, the house limit' }] };
      const value = typeof own === 'number' ? own : pick(own);
      return { value, terms: [{ ...term, value }] };
    },
  };
}

/** A number that no sheet changes, with where it is from. */
export function constant(term: Term & { assumed: string }): Node<number> {
  const outcome = { value: term.value, terms: [term] };
  return { id: `constant ${term.name}`, evaluate: () => outcome };
}

/** A value of another stage, read from the sheet as it stands. */
export function reading<T>(id: string, raw: (source: Source) => unknown, read: (sight: Sight) => Outcome<T>): Leaf<T> {
  return { id, raw, evaluate: read };
}

/** Any value worked out of others; its inputs are shown in its place. */
export function fact<T, const F extends From>(about: {
  id: string;
  from: F;
  when?: Node<boolean>;
  compute: (values: ValuesOf<F>) => T;
}): Node<T> {
  const entries = Object.entries(about.from);
  return {
    id: about.id,
    evaluate: (sight) => guarded(about.when, sight, () => computed<F, T>(entries, sight, about.compute)),
  };
}

function guarded<T>(when: Node<boolean> | undefined, sight: Sight, work: () => Outcome<T>): Outcome<T> {
  if (!when) return work();
  const asked = sight.see(when);
  if (!isKnown(asked)) return asked;
  return asked.value ? work() : { lacks: [], moot: true };
}

function computed<F extends From, T>(
  entries: readonly [string, Node<unknown>][],
  sight: Sight,
  compute: (values: ValuesOf<F>) => T,
): Outcome<T> {
  const inputs = gather<F>(entries, sight);
  if (!isKnown(inputs)) return inputs;
  try {
    return { value: compute(inputs.value), terms: inputs.terms };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { lacks: [], impossible: error.message };
  }
}

/** One of several nodes, chosen by other values; what it stands on are the chosen one's inputs. */
export function choose<T, const F extends From>(about: {
  id: string;
  from: F;
  among: (values: ValuesOf<F>) => Node<T>;
}): Node<T> {
  const entries = Object.entries(about.from);
  return {
    id: about.id,
    evaluate(sight) {
      const inputs = gather<F>(entries, sight);
      if (!isKnown(inputs)) return inputs;
      const chosen = sight.see(about.among(inputs.value));
      if (!isKnown(chosen)) return chosen;
      return { value: chosen.value, terms: [...inputs.terms, ...chosen.terms] };
    },
  };
}

/** The larger of two numbers, shown as the one it is. */
export function larger(one: Node<number>, other: Node<number>): Node<number> {
  return {
    id: `larger of ${one.id} and ${other.id}`,
    evaluate(sight) {
      const outcomes = [sight.see(one), sight.see(other)] as const;
      const [a, b] = outcomes;
      if (!isKnown(a)) return isKnown(b) ? a : both(a, b);
      if (!isKnown(b)) return b;
      return b.value > a.value ? b : a;
    },
  };
}

/** A value where it is known, else another; only the one that is taken shows. */
export function orElse<T>(node: Node<T>, otherwise: Node<T>): Node<T> {
  return {
    id: `${node.id} or ${otherwise.id}`,
    evaluate(sight) {
      const outcome = sight.see(node);
      return isKnown(outcome) || outcome.unread ? outcome : sight.see(otherwise);
    },
  };
}

/** A value where it is known, else nothing. */
export function optional<T>(node: Node<T>): Node<T | undefined> {
  return {
    id: `${node.id} if known`,
    evaluate(sight) {
      const outcome = sight.see(node);
      return isKnown(outcome) || outcome.unread ? outcome : { value: undefined, terms: [] };
    },
  };
}

const NO_NOTES: readonly string[] = [];

/** A word about a figure: always the same, or by the values it was computed from. */
type Words<T, F extends From> = T | ((values: ValuesOf<F>) => T);

type About<Id extends string, F extends From> = {
  id: Id;
  symbol: string;
  name: string;
  dimension: Dimension;
  formula: Words<string, F>;
  source: Words<string, F>;
  /** Fields on whose hover it belongs. */
  home: readonly FieldPath[];
  /** What the reader should know before relying on it. */
  notes?: Words<readonly string[], F>;
  /** Where it makes no sense at all it is neither computed nor missed. */
  when?: Node<boolean>;
  from: F;
  compute: (values: ValuesOf<F>) => number;
};

/** A number with all that explains it. */
export type FigureNode<Id extends string = string> = Node<number> & {
  readonly id: Id;
  readonly name: string;
  readonly dimension: Dimension;
  readonly home: readonly FieldPath[];
};

/**
 * A figure of a stage. A missing input makes it absent; a `RangeError` of the physics makes it impossible, with that
 * sentence; a value that is no finite number never becomes a figure.
 */
export function figure<const Id extends string, const F extends From>(about: About<Id, F>): FigureNode<Id> {
  const { id, symbol, name, dimension, home, from, when, compute } = about;
  const entries = Object.entries(from);
  const evaluate = (sight: Sight): Outcome<number> =>
    guarded(when, sight, () => {
      const inputs = gather<F>(entries, sight);
      if (!isKnown(inputs)) return inputs;
      try {
        const value = compute(inputs.value);
        if (!Number.isFinite(value)) return { lacks: [], impossible: 'It has no finite value with these inputs.' };
        const words = <T>(text: Words<T, F>) =>
          typeof text === 'function' ? (text as (values: ValuesOf<F>) => T)(inputs.value) : text;
        const found: Figure = {
          id,
          figure: id,
          symbol,
          name,
          value,
          dimension,
          home,
          inputs: inputs.terms,
          formula: words(about.formula),
          source: words(about.source),
          notes: words(about.notes ?? NO_NOTES),
        };
        return { value, terms: [found] };
      } catch (error) {
        if (!(error instanceof RangeError)) throw error;
        return { lacks: [], impossible: error.message };
      }
    });
  return { id, name, dimension, home, evaluate };
}

function aboutField(path: FieldPath): { name: string; dimension: Dimension } {
  const schema = fieldSchema(path);
  return { name: (schema?.title ?? path).toLowerCase(), dimension: schema?.dimension ?? 'ratio-number' };
}

/** The schema's default of a limit, in SI. */
function standardLimit(path: FieldPath): number {
  const schema = fieldSchema(path);
  const read = schema?.dimension ? parseQuantity(String(schema.default), schema.dimension) : undefined;
  return read && isQuantity(read) ? read.value : Number(schema?.default);
}

function isQuantityValue(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'dimension' in value && 'value' in value;
}
