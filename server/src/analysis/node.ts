import type { Limits } from '../generated/build-sheet.ts';
import { type FieldPath, fieldSchema } from '../sheet/path.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, isQuantityValue, type Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import { type Absent, both, type Figure, isKnown, type Known, type Outcome, type Term } from './figure.ts';
import { type Entries, type From, gather, termsOf, type ValuesOf, valuesOf } from './inputs.ts';
import type { Source } from './source.ts';

/** What a node may ask while it is evaluated: other nodes, and, for those that read the sheet, the stage's own values. */
export type Sight = {
  see<T>(node: Node<T>): Outcome<T>;
  readonly source: Source;
  /** The number of a quantity at the end of its tolerance that is computed. */
  readonly pick: (quantity: Quantity) => number;
};

/** What a node may ask when it is shown: also the terms of the nodes it was worked out of. */
export type Showing = Sight & { termsOf(node: Node<unknown>): readonly Term[] };

/**
 * A value of one stage with declared inputs, evaluated when it is asked for. `index` is its number among all nodes. What
 * there is to show of a known value is built only when it is shown, from the same inputs.
 */
export type Node<T> = {
  readonly id: string;
  readonly index: number;
  evaluate(sight: Sight): Outcome<T>;
  terms(showing: Showing): readonly Term[];
};

/** A node that reads the sheet; `raw` is what stands there, the same object as long as the sheet says the same. */
export type Leaf<T> = Node<T> & { raw(source: Source): unknown };

/** How many nodes there are. */
let nodes = 0;

export function isLeaf<T>(node: Node<T>): node is Leaf<T> {
  return 'raw' in node;
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
    (raw, { pick }) => (typeof raw === 'number' ? raw : isQuantityValue(raw) ? pick(raw) : undefined),
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
  return leaf<T, F>(
    path,
    usual,
    (raw) => (typeof raw === 'string' || typeof raw === 'boolean' ? (raw as T) : undefined),
    (word) => ({ symbol, name, value: 0, dimension: 'ratio-number', text: wordOf(word) }),
  );
}

function wordOf(word: string | boolean): string {
  if (typeof word === 'string') return word;
  return word ? 'yes' : 'no';
}

/** A list of pairs of quantities, in SI, such as the points of a pump curve. */
export function table(path: FieldPath, symbol: string): Leaf<readonly (readonly [number, number])[]> {
  const { name } = aboutField(path);
  return leaf<readonly (readonly [number, number])[], Record<never, never>>(
    path,
    undefined,
    (raw, { pick }) => {
      if (!Array.isArray(raw)) return undefined;
      return (raw as readonly (readonly Quantity[])[]).map(
        ([x, y]) => [x ? pick(x) : Number.NaN, y ? pick(y) : Number.NaN] as const,
      );
    },
    (pairs) => ({ symbol, name, value: 0, dimension: 'ratio-number', text: `${pairs.length} points` }),
  );
}

function leaf<T, F extends From>(
  path: FieldPath,
  usual: Usual<T, F> | undefined,
  read: (raw: unknown, sight: Sight) => T | undefined,
  termOf: (value: T) => Term,
): Leaf<T> {
  const from: Entries = usual && 'from' in usual ? Object.entries(usual.from) : [];
  const raw = (source: Source) => source.read(path) ?? unreadAt(source, path);
  return {
    id: path as string,
    index: nodes++,
    raw,
    evaluate(sight: Sight): Outcome<T> {
      const standing = raw(sight.source);
      const value = read(standing, sight);
      if (value !== undefined) return { value };
      if (standing === UNREAD) return { lacks: [path], unread: true };
      if (!usual) return { lacks: [path] };
      if (!('from' in usual)) return { value: usual.value };
      const inputs = gather<F>(from, sight);
      return isKnown(inputs) ? { value: usual.compute(inputs.value) } : inputs;
    },
    terms(showing: Showing): Term[] {
      const { source } = showing;
      const field = source.place(path);
      const given = read(raw(source), showing);
      if (given !== undefined || !usual) {
        const assumed = source.because(path);
        return [{ ...termOf(given as T), field, ...(assumed !== undefined && { assumed }) }];
      }
      const inputs = valuesOf<F>(from, showing);
      const value = 'from' in usual ? usual.compute(inputs) : usual.value;
      const assumed = typeof usual.because === 'string' ? usual.because : usual.because(inputs);
      return [{ ...termOf(value), field, assumed }, ...termsOf(from, showing)];
    },
  };
}

/** Stands for a field that may be written in a part of the text that could not be read. */
const UNREAD = Symbol('unread');

function unreadAt(source: Source, path: FieldPath): typeof UNREAD | undefined {
  return source.isUnread(path) ? UNREAD : undefined;
}

/** Nothing of its own to show. */
const noTerms = (): readonly Term[] => [];

/** Whether the sheet writes a field or section in this stage. */
export function given(path: FieldPath): Leaf<boolean> {
  const raw = (source: Source) => source.read(path) !== undefined || unreadAt(source, path);
  return {
    id: `${path} given`,
    index: nodes++,
    raw,
    evaluate({ source }: Sight): Outcome<boolean> {
      const value = raw(source);
      return value === UNREAD ? { lacks: [path], unread: true } : { value: value === true };
    },
    terms: noTerms,
  };
}

/** The unit a quantity is written in. */
export function writtenIn(path: FieldPath): Leaf<string | undefined> {
  const raw = (source: Source) => {
    const value = source.read(path);
    return isQuantityValue(value) ? value.unit : undefined;
  };
  return {
    id: `unit of ${path}`,
    index: nodes++,
    raw,
    evaluate: ({ source }: Sight) => ({ value: raw(source) }),
    terms: noTerms,
  };
}

const limits = new Map<string, Leaf<number>>();

/** A limit: the sheet's own, else the house's, else the schema's default. */
export function limit(name: keyof Limits & string): Leaf<number> {
  const node = limits.get(name) ?? limitNode(name);
  limits.set(name, node);
  return node;
}

function limitNode(name: keyof Limits & string): Leaf<number> {
  const path = `limits.${name}` as FieldPath;
  const about = aboutField(path);
  const usual = standardLimit(path);
  const raw = (source: Source) => unreadAt(source, path) ?? source.limit(name);
  const read = (own: Quantity | number, pick: Sight['pick']) => (typeof own === 'number' ? own : pick(own));
  return {
    id: path as string,
    index: nodes++,
    raw,
    evaluate({ source, pick }: Sight): Outcome<number> {
      const own = raw(source);
      if (own === UNREAD) return { lacks: [path], unread: true };
      return { value: own === undefined ? usual : read(own, pick) };
    },
    terms({ source, pick }: Showing): Term[] {
      const own = source.limit(name);
      const term = { symbol: 'limit', ...about, field: source.place(path) };
      if (own === undefined) return [{ ...term, value: usual, assumed: 'common practice, the house limit' }];
      return [{ ...term, value: read(own, pick) }];
    },
  };
}

/** A number that no sheet changes, with where it is from. */
export function constant(term: Term & { assumed: string }): Node<number> {
  const outcome = { value: term.value };
  const terms = [term];
  return { id: `constant ${term.name}`, index: nodes++, evaluate: () => outcome, terms: () => terms };
}

/** A value of another stage, read from the sheet as it stands, with what to show of it. */
export function reading<T>(
  id: string,
  raw: (source: Source) => unknown,
  read: (sight: Sight) => (Known<T> & { terms: readonly Term[] }) | Absent,
): Leaf<T> {
  const terms = (showing: Showing) => {
    const found = read(showing);
    return isKnown(found) ? found.terms : [];
  };
  return { id, index: nodes++, raw, evaluate: read, terms };
}

/** Any value worked out of others; its inputs are shown in its place. */
export function fact<T, const F extends From>(about: {
  id: string;
  from: F;
  when?: Node<boolean>;
  compute: (values: ValuesOf<F>) => T;
}): Node<T> {
  const { id, from, when, compute } = about;
  const entries = Object.entries(from);
  return {
    id,
    index: nodes++,
    evaluate: (sight: Sight) => guarded(when, sight, () => computed<F, T>(entries, sight, compute)),
    terms: (showing: Showing) => termsOf(entries, showing),
  };
}

function guarded<T>(when: Node<boolean> | undefined, sight: Sight, work: () => Outcome<T>): Outcome<T> {
  if (!when) return work();
  const asked = sight.see(when);
  if (!isKnown(asked)) return asked;
  return asked.value ? work() : { lacks: [], moot: true };
}

function computed<F extends From, T>(entries: Entries, sight: Sight, compute: (values: ValuesOf<F>) => T): Outcome<T> {
  const inputs = gather<F>(entries, sight);
  if (!isKnown(inputs)) return inputs;
  try {
    return { value: compute(inputs.value) };
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
  const { id, from, among } = about;
  const entries = Object.entries(from);
  return {
    id,
    index: nodes++,
    evaluate(sight: Sight): Outcome<T> {
      const inputs = gather<F>(entries, sight);
      return isKnown(inputs) ? sight.see(among(inputs.value)) : inputs;
    },
    terms: (showing: Showing) => [
      ...termsOf(entries, showing),
      ...showing.termsOf(among(valuesOf<F>(entries, showing))),
    ],
  };
}

/** The larger of two numbers, shown as the one it is; of two that are equal both are shown, since each moves it. */
export function larger(one: Node<number>, other: Node<number>): Node<number> {
  const largestIn = (sight: Sight) => {
    const [a, b] = [sight.see(one), sight.see(other)];
    if (!isKnown(a) || !isKnown(b)) return [isKnown(b) ? other : one];
    if (a.value === b.value) return [one, other];
    return [b.value > a.value ? other : one];
  };
  return {
    id: `larger of ${one.id} and ${other.id}`,
    index: nodes++,
    evaluate(sight: Sight): Outcome<number> {
      const [a, b] = [sight.see(one), sight.see(other)];
      if (!isKnown(a)) return isKnown(b) ? a : both(a, b);
      if (!isKnown(b)) return b;
      return b.value > a.value ? b : a;
    },
    terms: (showing: Showing) => largestIn(showing).flatMap((node) => showing.termsOf(node)),
  };
}

/** A value where it is known, else another; only the one that is taken shows. */
export function orElse<T>(node: Node<T>, otherwise: Node<T>): Node<T> {
  return {
    id: `${node.id} or ${otherwise.id}`,
    index: nodes++,
    evaluate(sight: Sight): Outcome<T> {
      const outcome = sight.see(node);
      return isKnown(outcome) || outcome.unread ? outcome : sight.see(otherwise);
    },
    terms: (showing: Showing) => showing.termsOf(isKnown(showing.see(node)) ? node : otherwise),
  };
}

/** Whether a value is known and passes a test; what it was worked out of shows only where it does. */
export function passes<T>(id: string, node: Node<T>, test: (value: T) => boolean): Node<boolean> {
  const passed = (outcome: Outcome<T>) => isKnown(outcome) && test(outcome.value);
  return {
    id,
    index: nodes++,
    evaluate(sight: Sight): Outcome<boolean> {
      const outcome = sight.see(node);
      return !isKnown(outcome) && outcome.unread ? outcome : { value: passed(outcome) };
    },
    terms: (showing: Showing) => (passed(showing.see(node)) ? showing.termsOf(node) : []),
  };
}

/** A value where it is known, else nothing. */
export function optional<T>(node: Node<T>): Node<T | undefined> {
  return {
    id: `${node.id} if known`,
    index: nodes++,
    evaluate(sight: Sight): Outcome<T | undefined> {
      const outcome = sight.see(node);
      return isKnown(outcome) || outcome.unread ? outcome : { value: undefined };
    },
    terms: (showing: Showing) => (isKnown(showing.see(node)) ? showing.termsOf(node) : []),
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
  readonly symbol: string;
  /** Where they do not depend on the build. */
  readonly formula?: string;
  readonly source?: string;
};

/**
 * A figure of a stage. A missing input makes it absent; a `RangeError` of the physics makes it impossible, with that
 * sentence; a value that is no finite number never becomes a figure.
 */
export function figure<const Id extends string, const F extends From>(about: About<Id, F>): FigureNode<Id> {
  const { id, symbol, name, dimension, home, from, when, compute, formula, source, notes = NO_NOTES } = about;
  const entries = Object.entries(from);
  const node: FigureNode<Id> = {
    id,
    index: nodes++,
    name,
    dimension,
    home,
    symbol,
    ...(typeof formula === 'string' && { formula }),
    ...(typeof source === 'string' && { source }),
    evaluate(sight: Sight): Outcome<number> {
      const outcome = guarded(when, sight, () => computed<F, number>(entries, sight, compute));
      return isKnown(outcome) && !Number.isFinite(outcome.value) ? NOT_FINITE : outcome;
    },
    terms(showing: Showing): Figure[] {
      const outcome = showing.see(node);
      if (!isKnown(outcome)) return [];
      const values = valuesOf<F>(entries, showing);
      const words = <T>(text: Words<T, F>) =>
        typeof text === 'function' ? (text as (values: ValuesOf<F>) => T)(values) : text;
      return [
        {
          id,
          figure: id,
          symbol,
          name,
          value: outcome.value,
          dimension,
          home,
          inputs: termsOf(entries, showing),
          formula: words(formula),
          source: words(source),
          notes: words(notes),
        },
      ];
    },
  };
  return node;
}

const NOT_FINITE: Absent = { lacks: [], impossible: 'It has no finite value with these inputs.' };

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
