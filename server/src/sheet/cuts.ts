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
  /** What a stretch that stands as it did keeps from version to version: two with the same have the same text. */
  stretch: object;
};

const SPACE = 0x20;
const DASH = 0x2d;
const HASH = 0x23;

/** A field without a value on its line, such as one that a list follows. */
const BARE = /([\w-]+): *(?: #[^\n]*)?(?:\r?\n|$)/y;
const NAME = /[\w-]*/y;

/** A list whose items are being cut: the columns of its dashes and of what its newest item holds, if that is known. */
type OpenList = { indent: number; content: number | undefined };

/** Texts that were cut lately, the newest first: a catalog is cut for its ids and again to be read, and then after each edit. */
const lately: { text: string; cuts: readonly Cut[] | undefined }[] = [];
const MOST_KEPT = 3;

/** As `cutText`; of the same text again the same, and of one much like one before only what differs is cut. */
export function cutsOf(text: string): readonly Cut[] | undefined {
  const same = lately.find((one) => one.text === text);
  if (same) return same.cuts;
  const before = lately.findIndex((one) => isMuchLike(one.text, text));
  const known = lately[before];
  const cuts = known?.cuts ? cutAgain(text, { text: known.text, cuts: known.cuts }) : cutText(text);
  lately.splice(before < 0 ? MOST_KEPT - 1 : before, 1);
  lately.unshift({ text, cuts });
  return cuts;
}

/**
 * Whether something holds in every stretch of a text and above them; nothing where it has none. `known`: stretches in which it
 * was found to hold, which are not looked at again.
 */
export function inEveryStretch(
  text: string,
  known: WeakSet<object>,
  holds: (part: string) => boolean,
): boolean | undefined {
  const cuts = cutsOf(text);
  if (!cuts) return undefined;
  if (!holds(text.slice(0, cuts[0]?.start))) return false;
  for (const { stretch, start, end } of cuts) {
    if (known.has(stretch)) continue;
    if (!holds(text.slice(start, end))) return false;
    known.add(stretch);
  }
  return true;
}

/** What is looked at to tell whether a text is another version of one. */
const LIKE = 400;

function isMuchLike(text: string, other: string): boolean {
  return text.slice(0, LIKE) === other.slice(0, LIKE) || text.slice(-LIKE) === other.slice(-LIKE);
}

/**
 * The stretches a text is made of, but for comments above the first; nothing where the lines alone do not tell them, such as
 * in a text of tabs, or where something stands further out than what it belongs to.
 */
export function cutText(text: string): Cut[] | undefined {
  return hasOddSpace(text) ? undefined : cutOn(text, { cuts: [], at: 0 }, () => undefined);
}

function hasOddSpace(text: string): boolean {
  return /[\t\ufeff]|\r(?!\n)/.test(text);
}

/** As `cutText`, given a version with its stretches; those on either side of what differs are taken over. */
export function cutAgain(text: string, before: { text: string; cuts: readonly Cut[] }): Cut[] | undefined {
  const most = Math.min(text.length, before.text.length);
  const same = commonStart(text, before.text, most);
  const rest = commonEnd(text, before.text, most - same);
  if (hasOddSpace(text.slice(Math.max(0, same - 1), lineAfter(text, text.length - rest)))) return undefined;
  const by = text.length - before.text.length;
  const kept = Math.max(0, before.cuts.findIndex(({ end }) => end >= same) - 1);
  const from = before.cuts[kept];
  let later = kept;
  const tail = (start: number, kind: Cut['kind'], name: string): Cut[] | undefined => {
    if (start < text.length - rest) return undefined;
    while ((before.cuts[later]?.start ?? Number.POSITIVE_INFINITY) + by < start) later++;
    const other = before.cuts[later];
    const isSame =
      other && other.start + by === start && other.name === name && (kind === 'item') === (other.kind === 'item');
    return isSame
      ? before.cuts.slice(later).map((cut) => ({ ...cut, start: cut.start + by, end: cut.end + by }))
      : undefined;
  };
  return cutOn(text, { cuts: before.cuts.slice(0, kept), at: kept > 0 && from ? from.start : 0 }, tail);
}

/** How many characters two texts begin with alike, at most so many. */
function commonStart(text: string, other: string, most: number): number {
  let same = 0;
  for (let left = most; left > 0; ) {
    const step = Math.ceil(left / 2);
    const isSame = text.slice(same, same + step) === other.slice(same, same + step);
    if (isSame) same += step;
    left = isSame ? left - step : step - 1;
  }
  return same;
}

/** How many characters two texts end with alike, at most so many. */
function commonEnd(text: string, other: string, most: number): number {
  let same = 0;
  const ending = (one: string, step: number) => one.slice(one.length - same - step, one.length - same);
  for (let left = most; left > 0; ) {
    const step = Math.ceil(left / 2);
    const isSame = ending(text, step) === ending(other, step);
    if (isSame) same += step;
    left = isSame ? left - step : step - 1;
  }
  return same;
}

/**
 * Goes on cutting from a stretch of a text on; `tail` tells all that is left where a stretch begins from which on it is known.
 */
function cutOn(
  text: string,
  { cuts, at: from }: { cuts: Cut[]; at: number },
  tail: (start: number, kind: Cut['kind'], name: string) => Cut[] | undefined,
): Cut[] | undefined {
  let field = cuts.findLast(({ kind }) => kind !== 'item');
  let list: OpenList | undefined = cuts.length > 0 ? listAt(text, from) : undefined;
  let isBare = false;
  const begin = (kind: Cut['kind'], name: string, start: number) => {
    const above = cuts.at(-1);
    if (above) above.end = start;
    const cut: Cut = { kind, name, start, end: text.length, stretch: {} };
    cuts.push(cut);
    return cut;
  };
  for (let at = from; at < text.length; at = lineAfter(text, at)) {
    let column = at;
    while (text.charCodeAt(column) === SPACE) column++;
    if (isBlank(text, column)) continue;
    const indent = column - at;
    const isItem = isDash(text, column);
    if (indent === 0 && !isItem) {
      const name = matchAt(NAME, text, at) ?? '';
      const left = tail(at, 'field', name);
      if (left) return joined(cuts, left);
      isBare = matchAt(BARE, text, at) !== undefined;
      field = begin('field', name, at);
      list = undefined;
    } else if (!field) return undefined;
    else if (isItem && ((isBare && !list) || indent === list?.indent)) {
      const left = list && tail(at, 'item', field.name);
      if (left) return joined(cuts, left);
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

/** The list of which an item begins here, if one does. */
function listAt(text: string, at: number): OpenList | undefined {
  let column = at;
  while (text.charCodeAt(column) === SPACE) column++;
  return isDash(text, column) ? { indent: column - at, content: undefined } : undefined;
}

function joined(cuts: Cut[], left: readonly Cut[]): Cut[] {
  const [above, first] = [cuts.at(-1), left[0]];
  if (above && first) above.end = first.start;
  return [...cuts, ...left];
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
