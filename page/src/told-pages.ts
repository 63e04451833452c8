import { make } from '../../client/panel/element.ts';
import type { Editor } from './editor.ts';
import { part } from './element.ts';

/** Pages of the server that take their time: made when they are looked at, and again when the sheet is another by then. */
export class ToldPages {
  private readonly madeOf = new Map<string, unknown>();

  constructor(private readonly editor: Editor) {}

  async show(name: 'needs' | 'headroom'): Promise<void> {
    const { doc } = this.editor.view.state;
    if (this.madeOf.get(name) === doc) return;
    const place = part(name);
    if (place.childElementCount === 0) place.replaceChildren(make('p', { role: 'status' }, 'Working it out...'));
    const page = await this.editor.ask<{ markdown: string }>('buildSheet/page', { page: name });
    if (doc !== this.editor.view.state.doc) return;
    this.madeOf.set(name, doc);
    const told = make('div', { class: 'told' });
    told.innerHTML = this.editor.shown(page?.markdown ?? 'There is nothing to show yet: the sheet says too little.');
    place.replaceChildren(told);
  }
}
