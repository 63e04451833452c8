import type { Beside, Cell, Figures, FromPanel, Range, Row, Setting, State, ToPanel } from './messages.ts';

declare function acquireVsCodeApi(): { postMessage(message: FromPanel): void; setState(state: State): void };

const host = acquireVsCodeApi();
const main = document.querySelector('main') as HTMLElement;

/** Where on a bar its limit stands; what is beyond has the rest. */
const LIMIT_AT = 0.7;

let state: State = { uri: '', settings: [], beside: 'nothing', plots: false };
let rows: { element: HTMLElement; places: readonly Range[] }[] = [];
let cursor: { line: number; character: number } | undefined;

/** An element with attributes, and texts or elements in it; no text is ever read as markup. */
function make(name: string, attributes: Record<string, string> = {}, ...inside: (Node | string)[]): HTMLElement {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

function button(text: string, act: () => void, look = ''): HTMLElement {
  const element = make('button', { type: 'button', class: look }, text);
  element.addEventListener('click', act);
  return element;
}

const KINDS = { now: '', was: 'before', tried: 'what if' };

function show(figures: Figures, note: string | undefined): void {
  const focused = document.activeElement?.id;
  const top = document.documentElement.scrollTop;
  rows = [];
  main.replaceChildren(
    make('h1', {}, `Figures: ${figures.title}`),
    ...(note ? [make('p', { role: 'status' }, note)] : []),
    ...findings(figures),
    tries(figures),
    compared(),
    ...figures.topics.flatMap(({ heading, rows: own }) => [make('h2', {}, heading), table(figures, heading, own)]),
    ...questions(figures),
    ...plots(figures),
  );
  highlight();
  document.documentElement.scrollTop = top;
  if (focused) document.getElementById(focused)?.focus();
}

function findings({ findings: found }: Figures): HTMLElement[] {
  if (found.length === 0) return [make('p', {}, 'Nothing wrong is found.')];
  const items = found.map(({ severity, message, stages, range }) => {
    const text = `${message}${stages ? ` (${stages})` : ''}`;
    const line = button(text, () => host.postMessage({ kind: 'reveal', range }), 'plain');
    return make('li', {}, make('span', { class: 'severity' }, `${severity} `), line);
  });
  return [make('h2', {}, 'Findings'), make('ul', {}, ...items)];
}

function questions({ questions: asked }: Figures): HTMLElement[] {
  if (asked.length === 0) return [];
  const items = asked.map((text) => make('li', {}, text));
  const ask = button('Answer them one after the other', () => host.postMessage({ kind: 'ask' }));
  return [make('h2', {}, 'Still to be asked'), make('ul', {}, ...items), ask];
}

function table({ columns }: Figures, heading: string, own: readonly Row[]): HTMLElement {
  const head = columns.map(({ stage, kind }) =>
    make('th', { scope: 'col' }, stage, make('span', { class: 'kind' }, KINDS[kind])),
  );
  const body = own.map((row) => {
    const [first] = row.places;
    const name = first
      ? button(row.name, () => host.postMessage({ kind: 'reveal', range: first }), 'plain')
      : document.createTextNode(row.name);
    const element = make('tr', {}, make('th', { scope: 'row' }, name), ...row.cells.map(cell));
    rows.push({ element, places: row.places });
    return element;
  });
  const top = make('tr', {}, make('th', { scope: 'col' }, 'figure'), ...head);
  return make('table', { 'aria-label': heading }, make('thead', {}, top), make('tbody', {}, ...body));
}

function cell(found: Cell | null): HTMLElement {
  if (!found) return make('td', {}, '-');
  const { text, isMissed, isOther, bar } = found;
  const value = make('span', { class: `${isMissed ? 'missed' : ''} ${isOther ? 'other' : ''}` }, text);
  const missed = isMissed ? [' (missed)'] : [];
  if (!bar) return make('td', {}, value, ...missed);
  const limit = make('span', { class: 'limit' }, bar.limit);
  const filled = make('span');
  filled.style.width = `${100 * Math.min(1, Math.max(0, bar.share * LIMIT_AT))}%`;
  const mark = make('i');
  mark.style.left = `${100 * LIMIT_AT}%`;
  return make('td', {}, value, ...missed, make('span', { class: 'bar', 'aria-hidden': 'true' }, filled, mark), limit);
}

/** Other values to try: a form, what is tried, and what may become of it. */
function tries({ fields, refusal }: Figures): HTMLElement {
  const field = make('input', { id: 'field', list: 'fields', required: '' }) as HTMLInputElement;
  const value = make('input', { id: 'value' }) as HTMLInputElement;
  const list = make(
    'datalist',
    { id: 'fields' },
    ...fields.map((one) => make('option', { value: one.field }, one.value)),
  );
  const present = make('span', { role: 'status' });
  field.addEventListener('input', () => {
    const known = fields.find((one) => one.field === field.value);
    present.textContent = known ? `now ${known.value}` : '';
  });
  const form = make(
    'form',
    {},
    make('label', {}, 'Field', field),
    present,
    make('label', {}, 'What if it were (nothing: not given)', value),
    make('button', { id: 'try' }, 'Try it'),
    list,
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const others = state.settings.filter((one) => one.field !== field.value);
    change({ settings: [...others, { field: field.value, value: value.value }] });
  });
  const tried = state.settings.map((one) =>
    make(
      'li',
      {},
      `${one.field} = ${one.value || 'not given'} `,
      button('Drop', () => change({ settings: without(one) })),
    ),
  );
  const ends = [
    button('Write it into the sheet', () => host.postMessage({ kind: 'write' })),
    ' ',
    button('Drop all', () => change({ settings: [] })),
  ];
  return make(
    'section',
    {},
    make('h2', {}, 'What if'),
    form,
    ...(refusal ? [make('p', { role: 'alert', class: 'missed' }, refusal)] : []),
    ...(tried.length > 0 ? [make('ul', {}, ...tried), make('p', {}, ...ends)] : []),
  );
}

function without(setting: Setting): Setting[] {
  return state.settings.filter((one) => one !== setting);
}

function compared(): HTMLElement {
  const choices: [Beside, string][] = [
    ['nothing', 'nothing'],
    ['saved', 'the sheet as it is saved'],
    ['commit', 'the last commit'],
  ];
  const select = make('select', { id: 'beside' }, ...choices.map(([value, text]) => make('option', { value }, text)));
  (select as HTMLSelectElement).value = state.beside;
  select.addEventListener('change', () => change({ beside: (select as HTMLSelectElement).value as Beside }));
  return make('p', {}, make('label', {}, 'Show beside each figure how it was in', select));
}

function plots({ plots: drawn = [] }: Figures): HTMLElement[] {
  const toggle = button(state.plots ? 'Hide the curves' : 'Show the curves', () => change({ plots: !state.plots }));
  toggle.id = 'plots';
  const figures = drawn.map(({ svg, caption }) => {
    const picture = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    return make('figure', {}, document.importNode(picture, true), make('figcaption', {}, caption));
  });
  return [make('h2', {}, 'Curves'), toggle, ...figures];
}

function change(part: Partial<State>): void {
  state = { ...state, ...part };
  host.setState(state);
  const { settings, beside, plots: wanted } = state;
  host.postMessage({ kind: 'state', settings, beside, plots: wanted });
}

/** Marks the rows whose innermost field holds the cursor. */
function highlight(): void {
  const holding = rows.flatMap(({ places }) => places.filter(holds));
  const lines = ({ start, end }: Range) => end.line - start.line;
  const least = Math.min(...holding.map(lines));
  for (const { element, places } of rows) {
    const isHere = places.some((place) => holds(place) && lines(place) === least);
    element.classList.toggle('here', isHere);
    if (isHere) element.setAttribute('aria-current', 'true');
    else element.removeAttribute('aria-current');
  }
}

function holds({ start, end }: Range): boolean {
  if (!cursor) return false;
  const isAfter = cursor.line > start.line || (cursor.line === start.line && cursor.character >= start.character);
  return isAfter && (cursor.line < end.line || (cursor.line === end.line && cursor.character <= end.character));
}

window.addEventListener('message', ({ data }: MessageEvent<ToPanel>) => {
  if (data.kind === 'nothing') main.replaceChildren(make('p', { role: 'status' }, data.text));
  else if (data.kind === 'cursor') {
    cursor = data;
    highlight();
  } else {
    state = data.state;
    host.setState(state);
    show(data.figures, data.note);
  }
});
host.postMessage({ kind: 'ready' });
