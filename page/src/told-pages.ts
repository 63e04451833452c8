import { make } from '../../client/panel/element.ts';
import type { Editor } from './editor.ts';
import { part } from './element.ts';

export type Told = 'needs' | 'headroom' | 'compare';

/** Pages of the server that take their time: made when they are looked at, and again when the sheet is another by then. */
export class ToldPages {
  private readonly madeOf = new Map<Told, { doc: unknown; before: string }>();

  constructor(private readonly editor: Editor) {}

  /** Shows a page; `before` is the text that the sheet is compared with. */
  async show(name: Told, before = ''): Promise<void> {
    const { doc } = this.editor.view.state;
    const made = this.madeOf.get(name);
    if (made?.doc === doc && made.before === before) return;
    const place = part(name);
    if (place.childElementCount === 0) place.replaceChildren(make('p', { role: 'status' }, 'Working it out...'));
    const page = await this.editor.ask<{ markdown: string }>('buildSheet/page', {
      page: name,
      ...(name === 'compare' && { before: { text: before } }),
    });
    if (doc !== this.editor.view.state.doc) return;
    this.madeOf.set(name, { doc, before });
    const told = make('div', { class: 'told' });
    told.innerHTML = this.editor.shown(page?.markdown ?? 'There is nothing to show yet: the sheet says too little.');
    const against = make('p', { class: 'faint' }, 'Compared with the sheet as it was opened, or last saved as a copy.');
    place.replaceChildren(...(name === 'compare' ? [against] : []), told);
  }
}
