import { button, make } from './element.ts';
import type { Drawing, Figures, Range, Section } from './messages.ts';

/** What is found, each with a way to its place. */
export function findings(found: Figures['findings'], reveal: (range: Range) => void): HTMLElement[] {
  if (found.length === 0) return [make('p', {}, 'Nothing wrong is found.')];
  const items = found.map(({ severity, message, stages, range }, index) => {
    const text = `${message}${stages ? ` (${stages})` : ''}`;
    const line = button(`finding-${index}`, text, () => reveal(range), 'plain');
    return make('li', {}, make('span', { class: `severity ${severity}` }, `${severity} `), line);
  });
  return [make('ul', {}, ...items)];
}

/** What takes longer than the figures: questions, or drawings with their numbers. */
export function sectionContent(section: Section, ask: () => void): HTMLElement[] {
  if ('drawings' in section) return drawings(section.drawings);
  const { texts, left } = section.questions;
  if (texts.length === 0) return [make('p', {}, 'Nothing is left to ask.')];
  const items = texts.map((text) => make('li', {}, text));
  const rest = left > 0 ? [make('p', {}, `And ${left} more.`)] : [];
  return [make('ul', {}, ...items), ...rest, button('ask', 'Answer them one after the other', ask)];
}

function drawings(drawn: readonly Drawing[]): HTMLElement[] {
  if (drawn.length === 0) return [make('p', {}, 'The sheet does not say enough yet to draw anything.')];
  return drawn.map(({ svg, caption, numbers: { head, rows } }) => {
    const picture = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    const columns = head.map((text) => make('th', { scope: 'col' }, text));
    const lines = rows.map(([first = '', ...others]) =>
      make('tr', {}, make('th', { scope: 'row' }, first), ...others.map((text) => make('td', {}, text))),
    );
    const table = make('table', {}, make('thead', {}, make('tr', {}, ...columns)), make('tbody', {}, ...lines));
    const numbers = make('details', {}, make('summary', {}, 'Its numbers'), table);
    return make('figure', {}, document.importNode(picture, true), make('figcaption', {}, caption), numbers);
  });
}
