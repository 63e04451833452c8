import { make } from '../../client/panel/element.ts';
import { part } from './element.ts';

export type Item = { text: string; detail?: string; act: () => void };

const dialog = part('dialog') as HTMLDialogElement;

/** Shows something over the page until it is closed; Escape closes it as well. */
export function show(title: string, ...content: (Node | string)[]): void {
  const close = make('button', { type: 'button' }, 'Close');
  close.addEventListener('click', () => dialog.close());
  dialog.replaceChildren(make('div', { class: 'head' }, make('h2', { id: 'dialog-title' }, title), close), ...content);
  if (!dialog.open) dialog.showModal();
}

/** Lets the user pick one of several things to do. */
export function choose(title: string, items: readonly Item[], nothing: string): void {
  const rows = items.map(({ text, detail, act }) => {
    const row = make('button', { type: 'button', class: 'plain' }, text);
    if (detail) row.append(make('div', { class: 'faint' }, detail));
    row.addEventListener('click', () => {
      dialog.close();
      act();
    });
    return make('li', {}, row);
  });
  show(title, rows.length > 0 ? make('ul', { class: 'plain' }, ...rows) : make('p', {}, nothing));
}
