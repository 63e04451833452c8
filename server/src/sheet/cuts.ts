/**
 * A stretch of text that is read by itself: a field at the margin with what belongs to it, the head of a list at the
 * margin, or an item of such a list. The comments and empty lines that follow belong to it.
 */
export type Cut = {
  kind: 'field' | 'head' | 'item';
  /** The name of the field; of an item, the one of its list. */
  name: string;
  start: number;
  end: number;
};

const SPACE = 0x20;
const DASH = 0x2d;
const HASH = 0x23;

/** A field without a value on its line, such as one that a list follows. */
const BARE = /([\w-]+): *(?: #[^\n]*)?(?:\r?\n|$)/y;
const NAME = /[\w-]*/y;

/** A list whose items are being cut: the columns of its dashes and of what its newest item holds, if that is known. */
type OpenList = { indent: number; content: number | undefined };

/** The text that was cut last: a catalog is cut for its ids and again to be read. */
let last: { text: string; cuts: readonly Cut[] | undefined } = { text: '', cuts: [] };

/** As `cutText`; of the same text again the same. */
export function cutsOf(text: string): readonly Cut[] | undefined {
  if (text !== last.text) last = { text, cuts: cutText(text) };
  return last.cuts;
}

/**
 * The stretches a text is made of, but for comments above the first; nothing where the lines alone do not tell them, such as
 * in a text of tabs, or where something stands further out than what it belongs to.
 */
function cutText(text: string): Cut[] | undefined {
  if (/[\t\ufeff]|\r(?!\n)/.test(text)) return undefined;
  const cuts: Cut[] = [];
  let field: Cut | undefined;
  let list: OpenList | undefined;
  let isBare = false;
  const begin = (kind: Cut['kind'], name: string, start: number) => {
    const above = cuts.at(-1);
    if (above) above.end = start;
    const cut: Cut = { kind, name, start, end: text.length };
    cuts.push(cut);
    return cut;
  };
  for (let at = 0; at < text.length; at = lineAfter(text, at)) {
    let column = at;
    while (text.charCodeAt(column) === SPACE) column++;
    if (isBlank(text, column)) continue;
    const indent = column - at;
    const isItem = isDash(text, column);
    if (indent === 0 && !isItem) {
      isBare = matchAt(BARE, text, at) !== undefined;
      field = begin('field', matchAt(NAME, text, at) ?? '', at);
      list = undefined;
    } else if (!field) return undefined;
    else if (isItem && ((isBare && !list) || indent === list?.indent)) {
      field.kind = 'head';
      begin('item', field.name, at);
      list = { indent, content: contentColumn(text, at, column) };
    } else if (list) {
      list.content ??= indent;
      if (indent <= list.indent || indent < list.content) return undefined;
    } else if (indent === 0) return undefined;
    else isBare = false;
  }
  return cuts;
}

function lineAfter(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

function matchAt(pattern: RegExp, text: string, at: number): string | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0];
}

/** Whether nothing or only a comment stands from here to the end of the line. */
function isBlank(text: string, at: number): boolean {
  return isLineEnd(text, at) || text.charCodeAt(at) === HASH;
}

function isLineEnd(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return Number.isNaN(code) || code === 0x0a || code === 0x0d;
}

function isDash(text: string, at: number): boolean {
  return text.charCodeAt(at) === DASH && (text.charCodeAt(at + 1) === SPACE || isLineEnd(text, at + 1));
}

/** The column of what stands behind a dash on its line. */
function contentColumn(text: string, line: number, dash: number): number | undefined {
  let column = dash + 1;
  while (text.charCodeAt(column) === SPACE) column++;
  return isBlank(text, column) ? undefined : column - line;
}
