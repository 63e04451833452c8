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
  type YAMLMap,
  YAMLParseError,
  type YAMLSeq,
  type Range as YamlRange,
} from 'yaml';
import { type Entry, newEntry, type Range, wholeRange } from './entry.ts';
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
  const composer = new Composer(document);
  const site = { path: [], key: undefined, schema, inherited: false, after: 0 };
  const root = composer.entry(document.contents as Node | null, site);
  return { root, isLocal: composer.isLocal };
}

/** Follows one document from its root; an anchored node is composed anew wherever an alias takes it over. */
class Composer {
  isLocal: boolean;
  private readonly mostEntries: number;
  private count = 0;
  private readonly open = new Set<Node>();
  private readonly faults = new Set<number>();
  private targets: Map<Alias, Node | undefined> | undefined;

  constructor(private readonly document: Document) {
    this.isLocal = document.warnings.length === 0;
    this.mostEntries = MOST_UNFOLDED + (document.range?.[2] ?? 0);
  }

  entry(node: Node | null, site: Site): Entry {
    if (++this.count > this.mostEntries)
      throw new TooLarge('Aliases unfold this sheet beyond any reasonable size; write the values out instead.');
    if (isAlias(node) || node?.anchor || node?.tag) this.isLocal = false;
    if (site.path.length > MOST_DEPTH) throw new TooLarge('This sheet nests deeper than any build sheet does.');
    if (isScalar(node)) return scalarOf(node, site);
    if (isAlias(node)) return this.aliased(node, site);
    if (isCollection(node)) return this.collection(node, site);
    return newEntry(site, { kind: 'empty', value: { start: site.after, end: site.after } });
  }

  private aliased(node: Alias, site: Site): Entry {
    const value = place(node.range, site.after);
    const target = this.targetOf(node);
    if (!target) this.fault('BAD_ALIAS', node.range);
    if (!target || this.open.has(target)) return newEntry(site, { kind: 'empty', value });
    const inner = this.entry(target, site);
    inner.anchored ??= inner.value;
    inner.value = value;
    return inner;
  }

  private collection(node: YAMLMap | YAMLSeq, site: Site): Entry {
    this.open.add(node);
    const children = isMap(node) ? this.pairs(node.items, site) : this.items(node.items as Node[], site);
    this.open.delete(node);
    const flow = node.flow === true;
    const value = place(node.range, site.after);
    const last = flow ? undefined : children.findLast(({ inherited }) => !inherited || site.inherited);
    if (last) value.end = wholeRange(last).end;
    return newEntry(site, { kind: isMap(node) ? 'map' : 'list', value, flow, children });
  }

  private items(nodes: Node[], { path, schema: own, after }: Site): Entry[] {
    return nodes.map((node, index) =>
      this.entry(isNode(node) ? node : null, {
        path: [...path, index],
        key: undefined,
        schema: own && child(own, index),
        inherited: false,
        after: isNode(node) ? (node.range?.[0] ?? after) : after,
      }),
    );
  }

  private pairs(nodes: readonly Pair[], site: Site): Entry[] {
    const found: Entry[] = [];
    const merged: Entry[] = [];
    const own = new Set<string>();
    for (const { key, value } of nodes) {
      const node = isNode(value) ? value : null;
      if (!isScalar(key)) {
        if (isNode(key)) this.fault('NON_STRING_KEY', key.range);
        continue;
      }
      const isMerge = typeof key.value === 'symbol';
      if (isMerge || key.anchor || key.tag) this.isLocal = false;
      if (isMerge) {
        merged.push(...this.mergedPairs(node, site));
        continue;
      }
      const name = nameOf(key);
      if (own.has(name)) this.fault('DUPLICATE_KEY', key.range);
      own.add(name);
      found.push(this.entry(node, siteOf(name, key, site)));
    }
    for (const candidate of merged.reverse()) {
      const name = String(candidate.path.at(-1));
      if (!own.has(name)) found.push(candidate);
      own.add(name);
    }
    return found;
  }

  private mergedPairs(node: Node | null, site: Site): Entry[] {
    const source = isAlias(node) ? this.targetOf(node) : node;
    if (!source && isAlias(node)) this.fault('BAD_ALIAS', node.range);
    else if (source && !isCollection(source)) this.fault('BAD_COLLECTION_TYPE', node?.range);
    if (isSeq(source))
      return source.items.toReversed().flatMap((item) => this.mergedPairs(isNode(item) ? item : null, site));
    if (!isMap(source) || this.open.has(source)) return [];
    this.open.add(source);
    const found = this.pairs(source.items.filter(isPair), { ...site, inherited: true });
    this.open.delete(source);
    return found;
  }

  private targetOf(alias: Alias): Node | undefined {
    this.targets ??= aliasTargets(this.document);
    return this.targets.get(alias);
  }

  private fault(code: YAMLParseError['code'], range: YamlRange | null | undefined): void {
    const start = range?.[0] ?? 0;
    if (this.faults.has(start)) return;
    this.faults.add(start);
    this.document.errors.push(new YAMLParseError([start, range?.[1] ?? start], code, ''));
  }
}

function scalarOf(node: Scalar, site: Site): Entry {
  const value = place(node.range, site.after);
  const kind = node.value === null && value.start === value.end ? 'empty' : 'scalar';
  const quote = node.type === 'QUOTE_DOUBLE' ? '"' : node.type === 'QUOTE_SINGLE' ? "'" : undefined;
  return newEntry(site, { kind, value, scalar: node.value, quote });
}

/** Where a field stands among those of a mapping. */
function siteOf(name: string, key: Scalar, { path, schema, inherited, after }: Site): Site {
  const range = place(key.range, after);
  return { path: [...path, name], key: range, schema: schema && child(schema, name), inherited, after: range.end };
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
