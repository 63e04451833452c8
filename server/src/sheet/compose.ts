import {
  type Alias,
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type Scalar,
  visit,
  YAMLParseError,
  type Range as YamlRange,
} from 'yaml';
import { type Entry, type Range, wholeRange } from './entry.ts';
import { child, type FieldSchema, type Path } from './schema.ts';

/** Most entries that aliases may add to what is written out, so that a few of them cannot fill the memory. */
const MOST_UNFOLDED = 20_000;
export const MOST_DEPTH = 100;

/** A sheet that unfolds or nests beyond any reasonable size; the message says which. */
export class TooLarge extends Error {}

type Site = { path: Path; key: Range | undefined; schema: FieldSchema | undefined; inherited: boolean; after: number };

/** The tree of entries, and whether each of them is what it is without the rest: nothing is named, taken over or typed. */
type Composed = { root: Entry; isLocal: boolean };

/**
 * The tree of entries of a YAML document, with aliases and merge keys followed. An entry under an alias has the place of
 * the anchored text; the alias itself keeps its own place. What cannot be followed is added to the document's errors.
 * @throws TooLarge
 */
export function compose(document: Document, schema: FieldSchema | undefined): Composed {
  const mostEntries = MOST_UNFOLDED + (document.range?.[2] ?? 0);
  let count = 0;
  const open = new Set<Node>();
  let targets: Map<Alias, Node | undefined> | undefined;

  function targetOf(alias: Alias): Node | undefined {
    targets ??= aliasTargets(document);
    return targets.get(alias);
  }

  const faults = new Set<number>();
  let isLocal = document.warnings.length === 0;

  function fault(code: YAMLParseError['code'], range: YamlRange | null | undefined) {
    const start = range?.[0] ?? 0;
    if (faults.has(start)) return;
    faults.add(start);
    document.errors.push(new YAMLParseError([start, range?.[1] ?? start], code, ''));
  }

  function entry(node: Node | null, site: Site): Entry {
    if (++count > mostEntries)
      throw new TooLarge('Aliases unfold this sheet beyond any reasonable size; write the values out instead.');
    if (isAlias(node) || node?.anchor || node?.tag) isLocal = false;
    if (site.path.length > MOST_DEPTH) throw new TooLarge('This sheet nests deeper than any build sheet does.');
    if (isScalar(node)) {
      const value = place(node.range, site.after);
      const kind = node.value === null && value.start === value.end ? 'empty' : 'scalar';
      const quote = node.type === 'QUOTE_DOUBLE' ? '"' : node.type === 'QUOTE_SINGLE' ? "'" : undefined;
      return make(site, value, kind, false, node.value, quote, []);
    }
    if (isAlias(node)) {
      const value = place(node.range, site.after);
      const target = targetOf(node);
      if (!target) fault('BAD_ALIAS', node.range);
      if (!target || open.has(target)) return make(site, value, 'empty', false, undefined, undefined, []);
      const inner = entry(target, site);
      inner.anchored ??= inner.value;
      inner.value = value;
      return inner;
    }
    if (!isCollection(node)) {
      return make(site, { start: site.after, end: site.after }, 'empty', false, undefined, undefined, []);
    }
    open.add(node);
    const children = isMap(node) ? pairs(node.items, site) : isSeq(node) ? items(node.items as Node[], site) : [];
    open.delete(node);
    const kind = isMap(node) ? 'map' : 'list';
    const isFlow = node.flow === true;
    const value = place(node.range, site.after);
    const last = isFlow ? undefined : children.findLast(({ inherited }) => !inherited || site.inherited);
    if (last) value.end = wholeRange(last).end;
    return make(site, value, kind, isFlow, undefined, undefined, children);
  }

  function items(nodes: Node[], { path, schema: own, after }: Site): Entry[] {
    return nodes.map((node, index) =>
      entry(isNode(node) ? node : null, {
        path: [...path, index],
        key: undefined,
        schema: own && child(own, index),
        inherited: false,
        after: isNode(node) ? (node.range?.[0] ?? after) : after,
      }),
    );
  }

  function pairs(nodes: Pair[], site: Site): Entry[] {
    const found: Entry[] = [];
    const merged: Entry[] = [];
    const own = new Set<string>();
    for (const { key, value } of nodes) {
      if (!isScalar(key)) {
        if (isNode(key)) fault('NON_STRING_KEY', key.range);
        continue;
      }
      const isMerge = typeof key.value === 'symbol';
      if (isMerge || key.anchor || key.tag) isLocal = false;
      const name = nameOf(key);
      const keyRange = place(key.range, site.after);
      const node = isNode(value) ? value : null;
      if (isMerge) {
        merged.push(...mergedPairs(node, site));
        continue;
      }
      if (own.has(name)) fault('DUPLICATE_KEY', key.range);
      own.add(name);
      found.push(
        entry(node, {
          path: [...site.path, name],
          key: keyRange,
          schema: site.schema && child(site.schema, name),
          inherited: site.inherited,
          after: keyRange.end,
        }),
      );
    }
    for (const candidate of merged.reverse()) {
      const name = String(candidate.path.at(-1));
      if (!own.has(name)) found.push(candidate);
      own.add(name);
    }
    return found;
  }

  function mergedPairs(node: Node | null, site: Site): Entry[] {
    const source = isAlias(node) ? targetOf(node) : node;
    if (!source && isAlias(node)) fault('BAD_ALIAS', node.range);
    else if (source && !isCollection(source)) fault('BAD_COLLECTION_TYPE', node?.range);
    if (isSeq(source))
      return source.items.toReversed().flatMap((item) => mergedPairs(isNode(item) ? item : null, site));
    if (!isMap(source) || open.has(source)) return [];
    open.add(source);
    const found = pairs(source.items.filter(isPair), { ...site, inherited: true });
    open.delete(source);
    return found;
  }

  const site = { path: [], key: undefined, schema, inherited: false, after: 0 };
  return { root: entry(document.contents as Node | null, site), isLocal };
}

/** What each alias stands for: the last node of that anchor before it. */
function aliasTargets(document: Document): Map<Alias, Node | undefined> {
  const anchored = new Map<string, Node>();
  const targets = new Map<Alias, Node | undefined>();
  visit(document, {
    Node: (_, node) => {
      if (isAlias(node)) targets.set(node, anchored.get(node.source));
      else if (node.anchor) anchored.set(node.anchor, node);
    },
  });
  return targets;
}

/** A field's name as it is written, whatever else YAML would make of it. */
function nameOf({ value, source }: Scalar): string {
  return typeof value === 'string' ? value : (source ?? '');
}

/** One shape for every entry keeps reading fast. */
function make(
  { path, key, schema, inherited }: Site,
  value: Range,
  kind: Entry['kind'],
  isFlow: boolean,
  scalar: unknown,
  quote: Entry['quote'],
  children: Entry[],
): Entry {
  const part = undefined;
  return {
    path,
    key,
    value,
    schema,
    kind,
    flow: isFlow,
    inherited,
    anchored: undefined,
    scalar,
    quote,
    children,
    part,
  };
}

function place(range: YamlRange | null | undefined, after: number): Range {
  return range ? { start: range[0], end: range[1] } : { start: after, end: after };
}

/** The plain value an entry stands for, as the schema check wants it. */
export function plain(entry: Entry): unknown {
  const { part } = entry;
  if (!part) return plainOf(entry);
  part.plain ??= { value: plainOf(entry) };
  return part.plain.value;
}

function plainOf(entry: Entry): unknown {
  if (entry.kind === 'list') return entry.children.map(plain);
  if (entry.kind !== 'map') return entry.scalar ?? null;
  const value: Record<string, unknown> = {};
  for (const inner of entry.children) {
    const name = String(inner.path.at(-1));
    if (name === '__proto__') Object.defineProperty(value, name, { value: plain(inner), enumerable: true });
    else value[name] = plain(inner);
  }
  return value;
}
