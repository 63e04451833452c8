import { Fold, keepingFocus, make, Part } from './element.ts';
import { findings, sectionContent } from './lists.ts';
import {
  type Beside,
  type Besides,
  beginning,
  type Figures,
  type FromPanel,
  type Range,
  type Section,
  type SectionName,
  type State,
  type ToPanel,
} from './messages.ts';
import { Tables } from './tables.ts';
import { Tries } from './tries.ts';

declare function acquireVsCodeApi(): { postMessage(message: FromPanel): void };

const host = acquireVsCodeApi();
const main = document.querySelector('main') as HTMLElement;

let state = beginning;
let columns: Figures['columns'] = [];
let besides: Besides = { nothing: 'nothing' };

const reveal = (range: Range) => host.postMessage({ kind: 'reveal', range });

const title = make('h1');
const note = make('p', { role: 'status' });
const found = new Part(make('div'), (shown: Figures['findings']) => findings(shown, reveal));
const tries = new Tries({
  change: (settings) => change({ settings }),
  write: () => host.postMessage({ kind: 'write' }),
  wanted: () => host.postMessage({ kind: 'triable' }),
});
const tables = new Tables({ reveal, toggled: fold });
const sections: Record<SectionName, { fold: Fold; part: Part<Section> }> = {
  questions: sectionOf('questions', 'Still to be asked'),
  ladder: sectionOf('ladder', 'How far the parts go'),
  curves: sectionOf('curves', 'Curves and the way of the fuel'),
};
const { select, options, onlyOther, element: compared } = comparing();
const nothing = make('p', { role: 'status' }, 'Working it out...');
const page = make(
  'div',
  { hidden: '' },
  title,
  make('h2', {}, 'What is found'),
  found.element,
  tries.element,
  make('h2', {}, 'Figures'),
  compared,
  note,
  make('p', { class: 'hint' }, 'A click or Enter on a figure leads to its field; arrow keys go from figure to figure.'),
  tables.element,
  ...Object.values(sections).map(({ fold }) => fold.element),
);
main.replaceChildren(nothing, page);

function sectionOf(name: SectionName, heading: string): { fold: Fold; part: Part<Section> } {
  const own = new Fold(`section-${name}`, heading, (isShut) => fold(name, isShut));
  return {
    fold: own,
    part: new Part(own.body, (section) => sectionContent(section, () => host.postMessage({ kind: 'ask' }))),
  };
}

/** What the figures stand beside, and whether to show all of them. */
function comparing() {
  const select = make('select', { id: 'beside' }) as HTMLSelectElement;
  const options = new Part(select, (offered: Besides) =>
    Object.entries(offered).map(([value, text]) => make('option', { value }, text)),
  );
  select.addEventListener('change', () => change({ beside: select.value as Beside }));
  const onlyOther = make('input', { id: 'only', type: 'checkbox' }) as HTMLInputElement;
  onlyOther.addEventListener('change', () => change({ onlyOther: onlyOther.checked }));
  const element = make(
    'p',
    { class: 'compared' },
    make('label', {}, 'Show beside each figure how it was in', select),
    make('label', { class: 'check' }, onlyOther, 'Only those that differ'),
  );
  return { select, options, onlyOther, element };
}

function show(figures: Figures, told: string | undefined): void {
  columns = figures.columns;
  const isComparing = columns.some(({ kind }) => kind !== 'now');
  title.textContent = figures.title;
  note.textContent = [told, ...(isComparing ? [differing(figures)] : [])].filter(Boolean).join(' ');
  note.hidden = note.textContent === '';
  options.show(besides);
  select.value = state.beside;
  onlyOther.checked = state.onlyOther;
  (onlyOther.parentElement as HTMLElement).hidden = !isComparing;
  found.show(figures.findings);
  tries.show(state.settings, figures);
  tables.show(figures, state.shut, isComparing && state.onlyOther);
  for (const [name, { fold: own }] of Object.entries(sections)) own.set(state.shut.includes(name));
}

/** How many figures differ from what stands beside them. */
function differing({ topics }: Figures): string {
  const rows = topics.flatMap((topic) => topic.rows);
  const count = (kind: 'was' | 'tried') =>
    rows.filter(({ cells }) => cells.some((cell, at) => cell?.isOther && columns[at]?.kind === kind)).length;
  const has = (kind: 'was' | 'tried') => columns.some((column) => column.kind === kind);
  const told = (number: number) =>
    number === 0 ? 'No figure differs' : `${number} ${number === 1 ? 'figure differs' : 'figures differ'}`;
  return [
    ...(has('was') ? [`${told(count('was'))} from ${besides[state.beside]}.`] : []),
    ...(has('tried') ? [`${told(count('tried'))} with what is tried.`] : []),
  ].join(' ');
}

function fold(name: string, isShut: boolean): void {
  const others = state.shut.filter((one) => one !== name);
  change({ shut: isShut ? [...others, name] : others });
}

function change(part: Partial<State>): void {
  state = { ...state, ...part, turn: state.turn + 1 };
  const { uri, ...rest } = state;
  host.postMessage({ kind: 'state', state: rest });
}

function take(message: ToPanel): void {
  if (message.kind === 'cursor') tables.moveCursor(message);
  else if (message.kind === 'triable') tries.offer(message.fields);
  else if (message.kind === 'section') sections[message.name].part.show(message.section);
  else if (message.kind === 'nothing' || message.state.turn >= state.turn) {
    page.hidden = message.kind === 'nothing';
    nothing.hidden = !page.hidden;
    if (message.kind === 'nothing') nothing.textContent = message.text;
    else {
      state = message.state;
      besides = message.besides;
      show(message.figures, message.note);
    }
  }
}

window.addEventListener('message', ({ data }: MessageEvent<ToPanel>) => keepingFocus(() => take(data)));
host.postMessage({ kind: 'ready' });
