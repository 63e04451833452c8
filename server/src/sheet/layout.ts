import { parseDocument } from 'yaml';
import { newline } from '../text/lines.ts';
import type { Range } from '../text/place.ts';
import { commentsOf } from './comments.ts';
import { applyEdits } from './edit.ts';
import type { TextEdit } from './problem.ts';
import { type Token, tokensOf } from './white-space.ts';

/** How far a level is indented. */
const STEP = 2;

/** Fields or items that begin in one column: where they begin, and where they will. */
type Level = { from: number; to: number; isList: boolean };

/**
 * The edits that put the white space of a YAML text in order: two columns a level, one space behind `:`, `,` and `-` and
 * within braces, one empty line at most, none at the end of lines. Values, comments and what formatting again gives are the
 * same. Nothing where the text cannot be read, or has what is left alone. Within a stretch those edits alone that begin in it, if
 * the text says the same with them.
 */
export function formatEdits(text: string, within?: Range): TextEdit[] | undefined {
  const tokens = tokensOf(text);
  if (!tokens) return undefined;
  const all = new Layout(text, tokens).edits();
  const isWithin = ({ start }: TextEdit, { start: from, end }: Range) =>
    from <= start && (start < end || (start === end && end === text.length));
  const edits = within ? all.filter((edit) => isWithin(edit, within)) : all;
  const after = applyEdits(text, edits);
  return saysTheSame(text, after) ? edits : undefined;
}

/** Whether two texts have the same values and the same comments, and nothing wrong with them. */
function saysTheSame(one: string, other: string): boolean {
  const [before, after] = [one, other].map((text) => {
    const document = parseDocument(text, { merge: true, logLevel: 'error', prettyErrors: false, uniqueKeys: false });
    return document.errors.length > 0
      ? undefined
      : JSON.stringify([document.toJS({ maxAliasCount: -1 }), commentsOf(text)]);
  });
  return before !== undefined && before === after;
}

/** One pass over the tokens of a text, line by line. */
class Layout {
  private readonly found: TextEdit[] = [];
  private levels: Level[] = [];
  /** The brackets that are open, and the column of the line in which the outermost was opened. */
  private open = 0;
  private base = 0;
  /** Comments on lines of their own whose column the next line tells. */
  private waiting: Token[] = [];

  constructor(
    private readonly text: string,
    private readonly tokens: readonly Token[],
  ) {}

  edits(): TextEdit[] {
    let previous: Token | undefined;
    let breaks: Token[] = [];
    for (const token of this.tokens) {
      if (token.kind === 'newline') {
        breaks.push(token);
        this.gap(endOf(breaks.at(-2) ?? previous), token.start, '');
        continue;
      }
      const isFirst = breaks.length > 0 || previous === undefined || previous.kind === 'block';
      if (isFirst) {
        this.thinOut(breaks, previous);
        if (token.kind !== 'block') this.beginLine(token);
      } else this.gap(endOf(previous), token.start, this.between(previous as Token, token));
      this.follow(token, isFirst ? undefined : previous);
      previous = token;
      breaks = [];
    }
    this.settle(undefined);
    this.end(breaks, previous);
    return this.found.toSorted((one, other) => one.start - other.start);
  }

  /** Replaces the white space of a stretch of text. */
  private gap(start: number, end: number, wanted: string): void {
    if (this.text.slice(start, end) !== wanted) this.found.push({ start, end, text: wanted });
  }

  /** Leaves one empty line at most, and none at the beginning. */
  private thinOut(breaks: readonly Token[], previous: Token | undefined): void {
    const kept = previous === undefined ? 0 : previous.kind === 'block' ? 1 : 2;
    for (const one of breaks.slice(kept)) this.gap(one.start, endOf(one), '');
  }

  private end(breaks: readonly Token[], previous: Token | undefined): void {
    const [first, ...rest] = breaks;
    if (previous?.kind === 'block') return;
    if (!first && previous) this.gap(endOf(previous), this.text.length, newline(this.text));
    else if (first && !previous) for (const one of breaks) this.gap(one.start, endOf(one), '');
    else for (const one of rest) this.gap(one.start, endOf(one), '');
    const last = breaks.at(-1);
    if (last) this.gap(endOf(last), this.text.length, '');
  }

  private columnOf({ start }: Token): number {
    return start - (this.text.lastIndexOf('\n', start - 1) + 1);
  }

  /** Indents the first token of a line. */
  private beginLine(token: Token): void {
    const column = this.columnOf(token);
    if (this.open > 0) {
      const level = token.kind === 'close' ? this.open - 1 : this.open;
      this.indent(token, this.base + STEP * level);
    } else if (token.kind === 'comment') this.waiting.push(token);
    else {
      const before = [...this.levels];
      this.enter(column, token.kind === 'dash');
      this.settle(this.levels.at(-1), before);
      this.indent(token, this.levels.at(-1)?.to ?? 0);
    }
  }

  private indent(token: Token, to: number): void {
    this.gap(token.start - this.columnOf(token), token.start, ' '.repeat(to));
  }

  /** The level of something that begins in a column. */
  private enter(column: number, isList: boolean): void {
    while (this.levels.length > 0) {
      const top = this.levels.at(-1) as Level;
      if (top.from > column || (top.from === column && top.isList && !isList)) this.levels.pop();
      else break;
    }
    const top = this.levels.at(-1);
    if (top?.from === column && top.isList === isList) return;
    this.levels.push({ from: column, to: top ? top.to + STEP : 0, isList });
  }

  /** Indents the comments that wait, as the line after them where they stand in its column, else as what is around them. */
  private settle(next: Level | undefined, before: readonly Level[] = this.levels): void {
    for (const comment of this.waiting) {
      const column = this.columnOf(comment);
      const around = [...before, ...(next ? [next] : [])].filter(({ from }) => from <= column);
      const nearest = around.toSorted((one, other) => one.from - other.from || one.to - other.to).at(-1);
      this.indent(comment, next?.from === column ? next.to : (nearest?.to ?? 0));
    }
    this.waiting = [];
  }

  /** Takes note of what a token opens or closes, and moves the further lines of one that has some. */
  private follow(token: Token, previous: Token | undefined): void {
    if (token.kind === 'open') {
      if (this.open === 0) this.base = this.levels.at(-1)?.to ?? 0;
      this.open++;
    } else if (token.kind === 'close') this.open--;
    else if (previous?.kind === 'dash' && this.open === 0 && token.kind !== 'comment')
      this.levels.push({
        from: this.columnOf(token),
        to: (this.levels.at(-1)?.to ?? 0) + STEP,
        isList: token.kind === 'dash',
      });
    if (token.text.includes('\n')) this.shift(token);
  }

  /** Moves the further lines of a token as far as the field it belongs to moves. */
  private shift({ text, start, kind }: Token): void {
    const { from, to } = this.levels.at(-1) ?? { from: 0, to: 0 };
    const by = to - from;
    if (by === 0) return;
    const first = kind === 'block' ? 0 : text.indexOf('\n') + 1;
    for (const { index, 0: line } of text.slice(first).matchAll(/^.+$/gm)) {
      const lead = /^ */.exec(line)?.[0].length ?? 0;
      if (lead === line.trimEnd().length) continue;
      const at = start + first + index;
      this.gap(at, at + lead, ' '.repeat(Math.max(0, lead + by)));
    }
  }

  /** The white space between two tokens of a line. */
  private between(previous: Token, token: Token): string {
    const written = this.text.slice(endOf(previous), token.start);
    if (token.kind === 'comment') return written.includes('\t') ? ' ' : written;
    if (token.kind === 'colon') return previous.kind === 'mark' ? written : '';
    if (token.kind === 'comma') return previous.kind === 'mark' ? written : '';
    if (previous.kind === 'open') return token.kind === 'close' || previous.text === '[' ? '' : ' ';
    if (token.kind === 'close') return token.text === ']' && previous.kind !== 'mark' ? '' : ' ';
    return ' ';
  }
}

function endOf(token: Token | undefined): number {
  return token ? token.start + token.text.length : 0;
}
