import { button, Fold, heard, make } from './element.ts';
import type { Bar, Cell, Column, Figures, Range, Row, Topic } from './messages.ts';

/** Where on a bar its limit stands; what is beyond has the rest. */
const LIMIT_AT = 0.7;

const KINDS = { now: '', was: 'before', tried: 'what if' };

type Line = { element: HTMLElement; name: HTMLElement; content: string; places: readonly number[] };
type Cursor = { line: number; character: number };

/** What the tables ask of the page they stand in. */
type Around = { reveal: (range: Range) => void; toggled: (heading: string, isShut: boolean) => void };

/** The figures by topic, stages as columns. A row that stays the same stays the same element. */
export class Tables {
  readonly element = make('div');
  private readonly topics = new Map<string, TopicTable>();
  private places: readonly Range[] = [];
  private cursor: Cursor | undefined;

  constructor(private readonly around: Around) {}

  show({ topics, columns, places }: Figures, shut: readonly string[], onlyOther: boolean): void {
    this.places = places;
    const shown = topics.map((topic) => {
      const table = this.topics.get(topic.heading) ?? this.added(topic.heading);
      table.show(topic, columns, shut.includes(topic.heading), onlyOther);
      return table.element;
    });
    if (
      shown.some((element, index) => this.element.children[index] !== element) ||
      shown.length !== this.element.childElementCount
    )
      this.element.replaceChildren(...shown);
    this.highlight();
  }

  /** Marks the rows whose innermost field holds the cursor. */
  moveCursor(cursor: Cursor): void {
    this.cursor = cursor;
    this.highlight();
  }

  private added(heading: string): TopicTable {
    const table = new TopicTable(heading, this.around, (number) => this.places[number]);
    this.topics.set(heading, table);
    return table;
  }

  private highlight(): void {
    const { cursor, places } = this;
    const holding = new Map(
      places.flatMap((place, number) => (cursor && holds(place, cursor) ? [[number, lines(place)] as const] : [])),
    );
    const lists = [...this.topics.values()].flatMap((topic) => [...topic.lines.values()]);
    const least = Math.min(...lists.flatMap((line) => line.places.map((place) => holding.get(place) ?? Infinity)));
    for (const { element, places: own } of lists) {
      const isHere = own.some((place) => holding.get(place) === least);
      element.classList.toggle('here', isHere);
      if (isHere) element.setAttribute('aria-current', 'true');
      else element.removeAttribute('aria-current');
    }
  }
}

function lines({ start, end }: Range): number {
  return end.line - start.line;
}

function holds({ start, end }: Range, { line, character }: Cursor): boolean {
  const isAfter = line > start.line || (line === start.line && character >= start.character);
  return isAfter && (line < end.line || (line === end.line && character <= end.character));
}

/** The figures of a topic. Tab reaches one row of it, arrow keys the others. */
class TopicTable {
  readonly element: HTMLElement;
  readonly lines = new Map<string, Line>();
  private readonly fold: Fold;
  private readonly head = make('thead');
  private readonly body = make('tbody');
  private columns: readonly Column[] = [];
  private said = '';

  constructor(
    heading: string,
    private readonly around: Around,
    private readonly placeOf: (number: number) => Range | undefined,
  ) {
    this.fold = new Fold(`topic-${heading}`, heading, (isShut) => around.toggled(heading, isShut));
    const table = make('table', { 'aria-label': heading }, this.head, this.body);
    table.addEventListener('keydown', (event) => this.move(event));
    table.addEventListener('focusin', ({ target }) => this.rove(target));
    this.fold.body.append(table);
    this.element = this.fold.element;
  }

  show({ rows }: Topic, columns: readonly Column[], isShut: boolean, onlyOther: boolean): void {
    this.fold.set(isShut);
    if (isShut) return;
    const content = JSON.stringify(columns);
    if (content !== this.said) this.showHead(columns);
    [this.columns, this.said] = [columns, content];
    const wanted = onlyOther ? rows.filter(({ cells }) => cells.some((cell) => cell?.isOther)) : rows;
    const shown = wanted.map((row) => this.line(row));
    const isSame =
      shown.length === this.lines.size && shown.every(({ element }, at) => this.body.children[at] === element);
    if (isSame) return;
    this.lines.clear();
    for (const [at, line] of shown.entries()) this.lines.set(wanted[at]?.figure ?? '', line);
    const none = make('tr', {}, make('td', { colspan: String(columns.length + 1) }, 'Nothing differs here.'));
    this.body.replaceChildren(...(shown.length > 0 ? shown.map(({ element }) => element) : [none]));
    this.rove(document.activeElement);
  }

  private showHead(columns: readonly Column[]): void {
    const head = columns.map(({ stage, kind }) =>
      make('th', { scope: 'col', class: kind }, stage, make('span', { class: 'kind' }, KINDS[kind])),
    );
    this.head.replaceChildren(make('tr', {}, make('th', { scope: 'col' }, 'Figure'), ...head));
  }

  /** The line of a figure: the one that is there, where it says the same. */
  private line(row: Row): Line {
    const content = JSON.stringify([row.name, row.cells, row.places.length > 0, this.said]);
    const known = this.lines.get(row.figure);
    if (known?.content === content) {
      known.places = row.places;
      return known;
    }
    const line: Line = { content, places: row.places, element: make('tr'), name: make('span', {}, row.name) };
    if (row.places.length > 0) line.name = button(`figure-${row.figure}`, row.name, () => this.reveal(line), 'plain');
    line.element.append(
      make('th', { scope: 'row' }, line.name),
      ...row.cells.map((one, at) => cell(one, this.columns[at])),
    );
    line.element.addEventListener('click', ({ target }) => {
      if (target !== line.name && document.getSelection()?.isCollapsed !== false) this.reveal(line);
    });
    return line;
  }

  private reveal({ places: [first = -1] }: Line): void {
    const place = this.placeOf(first);
    if (place) this.around.reveal(place);
  }

  private get names(): HTMLElement[] {
    return [...this.body.querySelectorAll<HTMLElement>('button')];
  }

  /** Lets Tab reach the row that was reached last, else the first. */
  private rove(target: EventTarget | null): void {
    const names = this.names;
    const at = names.find((name) => name === target) ?? names.find(({ tabIndex }) => tabIndex === 0) ?? names[0];
    for (const name of names) name.tabIndex = name === at ? 0 : -1;
  }

  private move(event: KeyboardEvent): void {
    const names = this.names;
    const at = names.indexOf(event.target as HTMLElement);
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: names.length - 1 }[event.key];
    if (at < 0 || to === undefined) return;
    event.preventDefault();
    names[to]?.focus();
  }
}

/** The cell of a column; it says its column where the table is too narrow to have any. */
function cell(found: Cell | null, column: Column | undefined): HTMLElement {
  const { stage = '', kind = 'now' } = column ?? {};
  const of = { 'data-column': kind === 'now' ? stage : `${stage}, ${KINDS[kind]}`, class: kind };
  if (!found) return make('td', of, '-');
  const { text, isMissed, isOther, bar } = found;
  const look = ['value', ...(isMissed ? ['missed'] : []), ...(isOther ? ['other'] : [])].join(' ');
  const value = make('span', { class: look }, ...raised(text));
  const said = [...(isMissed ? [' (missed)'] : []), ...(isOther ? [heard(' (differs)')] : [])];
  return make('td', of, value, ...said, ...(bar ? barOf(bar, isMissed) : []));
}

/** A text with the exponents of its units raised. */
function raised(text: string): (Node | string)[] {
  return text.split(/\^(\d)(?!\d)/).map((part, at) => (at % 2 === 1 ? make('sup', {}, part) : part));
}

/** A thin bar: how much of the limit is taken, over its tolerance, with a mark where the limit stands. */
function barOf({ share, low, high, limit }: Bar, isMissed: boolean): HTMLElement[] {
  const [taken, from, to] = [share, low, high].map((one) => 100 * Math.min(1, Math.max(0, one * LIMIT_AT)));
  const stretch = (name: string, left = 0, right = 0) => {
    const element = make('span', { class: name });
    element.style.left = `${left}%`;
    element.style.width = `${right - left}%`;
    return element;
  };
  const mark = stretch('mark');
  mark.style.left = `${100 * LIMIT_AT}%`;
  mark.style.width = '';
  const bar = make(
    'span',
    { class: isMissed ? 'bar missed' : 'bar', 'aria-hidden': 'true' },
    stretch('taken', 0, taken),
    ...(high > low ? [stretch('tolerance', from, to)] : []),
    mark,
  );
  return [bar, make('span', { class: 'limit' }, limit)];
}
