import { Document, isScalar, type ScalarTag } from 'yaml';
import { type Entry, newEntry, wholeRange } from './entry.ts';
import { child, type FieldSchema } from './schema.ts';

const NEWLINE = 0x0a;
const RETURN = 0x0d;
const SPACE = 0x20;
const DOUBLE_QUOTE = 0x22;
const HASH = 0x23;
const SINGLE_QUOTE = 0x27;
const COMMA = 0x2c;
const DASH = 0x2d;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN_MAP = 0x7b;
const CLOSE_MAP = 0x7d;

/** Characters that no plain text has: tabs, lone CRs, byte order marks and controls. */
const SPECIAL = /(?!\r?\n)\p{Cc}|[\u2028\u2029\ufeff]/u;

const NAME = /[A-Za-z][\w-]{0,99}(?=:(?:[ \r\n]|$))/y;
/** A scalar without quotes and on one line, among fields and items, and within braces and brackets. */
const SCALAR = /(?:[^\s\-?:,[\]{}#&*!|>'"%@`]|-(?=\S))(?:[^\s:]|:(?=\S)| +(?=[^\s#]))*/y;
const FLOW_SCALAR =
  /(?:[^\s\-?:,[\]{}#&*!|>'"%@`]|-(?=[^\s,[\]{}]))(?:[^\s:,[\]{}]|:(?=[^\s,[\]{}])| +(?=[^\s#,[\]{}]))*/y;
/** A scalar in quotes that holds just what is written in them. */
const QUOTED = /"[^"\\\r\n]*"|'[^'\r\n]*'(?!')/y;

const MOST_DEPTH = 50;

/** Which entry it is. */
type Site = Pick<Entry, 'path' | 'key' | 'schema'>;

/** What has to be read with all that YAML has. */
class NotPlain extends Error {}

/**
 * The tree of entries of a text that is written as most sheets are: fields and items by their indentation, scalars on one
 * line, braces and brackets. It is what `compose` gives of the same text, in a fraction of the time; nothing where the text
 * holds anything else, or anything wrong.
 */
export function parsePlain(text: string, schema: FieldSchema | undefined): Entry | undefined {
  if (SPECIAL.test(text)) return undefined;
  try {
    return new Reading(text).document({ path: [], key: undefined, schema });
  } catch (error) {
    if (error instanceof NotPlain) return undefined;
    throw error;
  }
}

/** Goes through one text from its beginning to its end. */
class Reading {
  private at = 0;
  /** The column of what stands next, where that begins a line or follows a dash; -1 at the end of the text. */
  private column = 0;

  constructor(private readonly text: string) {}

  document(site: Site): Entry {
    this.nextLine();
    if (this.column !== 0) throw new NotPlain();
    const root = this.fields(site);
    if (this.column >= 0) throw new NotPlain();
    return root;
  }

  /** Fields one below the other. */
  private fields(site: Site): Entry {
    const { column, at: start } = this;
    const children: Entry[] = [];
    const names = new Set<string>();
    while (this.column === column) children.push(this.value(this.field(site, names), column, true));
    if (this.column > column) throw new NotPlain();
    return newEntry(site, { kind: 'map', value: { start, end: endOf(children) }, children });
  }

  /** Items one below the other. */
  private items(site: Site): Entry {
    const { column, at: start } = this;
    const children: Entry[] = [];
    while (this.column === column && this.isDash()) {
      const dash = this.at++;
      this.spaces();
      const item = itemOf(site, children.length);
      this.column = column + this.at - dash;
      children.push(this.isName() ? this.fields(item) : this.value(item, column, false));
    }
    if (this.column > column) throw new NotPlain();
    return newEntry(site, { kind: 'list', value: { start, end: endOf(children) }, children });
  }

  /** A name and the colon after it. */
  private field({ path, schema }: Site, names: Set<string>): Site {
    const start = this.at;
    const name = this.taken(NAME);
    if (names.has(name) || path.length > MOST_DEPTH) throw new NotPlain();
    names.add(name);
    const key = { start, end: this.at++ };
    return { path: [...path, name], key, schema: schema && child(schema, name) };
  }

  /** What stands after a colon or a dash up to the next line, or on the lines below, further in than the column. */
  private value(site: Site, column: number, isField: boolean): Entry {
    this.spaces();
    const { at } = this;
    if (!this.isLineEnd()) {
      const entry = this.scalarOrFlow(site, column, SCALAR);
      this.endLine();
      return entry;
    }
    this.endLine();
    const isItems = this.isDash();
    if (this.column > column) return isItems ? this.items(site) : this.fields(site);
    if (!isField) throw new NotPlain();
    if (isItems && this.column === column) return this.items(site);
    return newEntry(site, { kind: 'empty', value: { start: at, end: at }, scalar: null });
  }

  private scalarOrFlow(site: Site, column: number, pattern: RegExp): Entry {
    switch (this.text.charCodeAt(this.at)) {
      case OPEN_MAP:
        return this.flow(site, column, 'map');
      case OPEN_LIST:
        return this.flow(site, column, 'list');
      case DOUBLE_QUOTE:
        return this.quoted(site, '"');
      case SINGLE_QUOTE:
        return this.quoted(site, "'");
    }
    const start = this.at;
    const scalar = scalarOf(this.taken(pattern));
    return newEntry(site, { kind: 'scalar', value: { start, end: this.at }, scalar });
  }

  private quoted(site: Site, quote: '"' | "'"): Entry {
    const start = this.at;
    const scalar = this.taken(QUOTED).slice(1, -1);
    return newEntry(site, { kind: 'scalar', value: { start, end: this.at }, scalar, quote });
  }

  /** Fields in braces or items in brackets. */
  private flow(site: Site, column: number, kind: 'map' | 'list'): Entry {
    const start = this.at++;
    const close = kind === 'map' ? CLOSE_MAP : CLOSE_LIST;
    const children: Entry[] = [];
    const names = new Set<string>();
    this.flowSpaces(column);
    while (this.text.charCodeAt(this.at) !== close) {
      const inner = kind === 'map' ? this.field(site, names) : itemOf(site, children.length);
      if (kind === 'map') this.spaces();
      children.push(this.scalarOrFlow(inner, column, FLOW_SCALAR));
      this.flowSpaces(column);
      if (this.text.charCodeAt(this.at) === close) break;
      if (this.text.charCodeAt(this.at++) !== COMMA) throw new NotPlain();
      this.flowSpaces(column);
      if (this.text.charCodeAt(this.at) === close) throw new NotPlain();
    }
    this.at++;
    return newEntry(site, { kind, value: { start, end: this.at }, flow: true, children });
  }

  /** What matches here, which is gone over. */
  private taken(pattern: RegExp): string {
    const start = this.at;
    pattern.lastIndex = start;
    if (!pattern.test(this.text)) throw new NotPlain();
    this.at = pattern.lastIndex;
    return this.text.slice(start, this.at);
  }

  private isName(): boolean {
    NAME.lastIndex = this.at;
    return NAME.test(this.text);
  }

  private isDash(): boolean {
    return this.text.charCodeAt(this.at) === DASH && this.text.charCodeAt(this.at + 1) === SPACE;
  }

  private spaces(): void {
    while (this.text.charCodeAt(this.at) === SPACE) this.at++;
  }

  /** Spaces within braces or brackets, which may go on below if that is further in than the column. */
  private flowSpaces(column: number): void {
    this.spaces();
    if (!this.isNewline()) return;
    this.at = this.lineBelow();
    const start = this.at;
    this.spaces();
    if (this.at - start <= column || this.isLineEnd()) throw new NotPlain();
  }

  /** Whether nothing more stands on this line, or only a comment. */
  private isLineEnd(): boolean {
    const code = this.text.charCodeAt(this.at);
    if (code === HASH) return this.text.charCodeAt(this.at - 1) === SPACE;
    return this.at >= this.text.length || this.isNewline();
  }

  private isNewline(): boolean {
    const code = this.text.charCodeAt(this.at);
    return code === NEWLINE || code === RETURN;
  }

  private lineBelow(): number {
    const end = this.text.indexOf('\n', this.at);
    return end < 0 ? this.text.length : end + 1;
  }

  /** Goes to what stands on the next line that says something. */
  private endLine(): void {
    this.spaces();
    if (!this.isLineEnd()) throw new NotPlain();
    this.at = this.lineBelow();
    this.nextLine();
  }

  private nextLine(): void {
    for (;;) {
      const start = this.at;
      this.spaces();
      this.column = this.at - start;
      if (this.at >= this.text.length) {
        this.column = -1;
        return;
      }
      if (!this.isNewline() && this.text.charCodeAt(this.at) !== HASH) return;
      this.at = this.lineBelow();
    }
  }
}

function itemOf({ path, schema }: Site, index: number): Site {
  if (path.length > MOST_DEPTH) throw new NotPlain();
  return { path: [...path, index], key: undefined, schema: schema && child(schema, index) };
}

function endOf(children: readonly Entry[]): number {
  const last = children.at(-1);
  if (!last) throw new NotPlain();
  return wholeRange(last).end;
}

/** The kinds of scalar that YAML tells by how they are written, and what reading them goes by. */
const { schema, options } = new Document(null);
const tags = schema.tags.filter((tag): tag is ScalarTag => tag.default === true && !tag.collection && 'test' in tag);

/** Whether a scalar without quotes may be anything but a text. */
const SPECIAL_VALUE = /^[-+.\d~nNtTfF][^ ]*$/;

function scalarOf(written: string): unknown {
  if (!SPECIAL_VALUE.test(written)) return written;
  const tag = tags.find(({ test }) => test?.test(written));
  const value = tag ? tag.resolve(written, refuse, options) : written;
  return isScalar(value) ? value.value : value;
}

function refuse(): never {
  throw new NotPlain();
}
