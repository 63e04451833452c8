import type { WorkspaceEdit } from 'vscode-languageserver';
import { make } from '../../client/panel/element.ts';
import type { Question, Reply, Turn } from '../../client/src/question.ts';
import { editsFor } from './actions.ts';
import type { Editor } from './editor.ts';
import { part } from './element.ts';

/** Puts one question after the other and writes each answer into the sheet at once. */
export class Asking {
  private readonly place = part('asking');
  private asking: object | undefined;
  private isOpen = false;

  constructor(private readonly editor: Editor) {}

  /** Begins anew, with the weightiest question. */
  async begin(): Promise<void> {
    this.asking = undefined;
    this.isOpen = true;
    await this.put();
  }

  stop(): void {
    this.isOpen = false;
    this.asking = undefined;
    this.place.replaceChildren();
  }

  private async put(reply?: Reply): Promise<void> {
    const params = { ...(this.asking && { asking: this.asking }), ...(reply !== undefined && { reply }) };
    const turn = await this.editor.ask<Turn<WorkspaceEdit>>('buildSheet/ask', params);
    if (!this.isOpen) return;
    if (!turn) return this.tell('The sheet changed meanwhile, so nothing was written.');
    this.asking = turn.asking;
    const edits = editsFor(this.editor.uri, turn.edit);
    if (edits) this.editor.apply(edits);
    if (turn.question) this.show(turn.question, turn.refusal);
    else this.tell('Nothing is left to ask.');
  }

  private tell(text: string): void {
    this.place.replaceChildren(
      make('p', { role: 'status' }, text),
      this.reply('Ask from the beginning', () => this.begin()),
    );
  }

  private show(question: Question, refusal: string | undefined): void {
    const { text, at, left, usual, choices, written } = question;
    const heading = make('h2', { id: 'question', tabindex: '-1' }, text);
    const where = make('p', { class: 'faint' }, left === 0 ? `${at}, the last one` : `${at}, ${left} more after it`);
    const hint = usual ? [make('p', {}, `Until it is known, ${usual.value} is taken: ${usual.because}`)] : [];
    const refused = refusal ? [make('p', { role: 'alert', class: 'error' }, refusal)] : [];
    const answers = choices.length > 0 ? this.choices(question) : this.typed(question);
    const replies = make(
      'div',
      { class: 'replies' },
      ...(written === undefined ? [] : [this.reply(`Leave ${written}`, () => this.put('keep'))]),
      this.reply('Not known yet', () => this.put('unknown')),
      this.reply('Back', () => this.put('back')),
    );
    this.place.replaceChildren(heading, where, ...hint, ...refused, answers, replies);
    const input = this.place.querySelector('input');
    (input ?? heading).focus({ preventScroll: true });
  }

  private choices({ choices, written }: Question): HTMLElement {
    const buttons = choices.map(({ value, meaning }) => {
      const one = this.reply(value, () => this.put(value === written ? 'keep' : { answer: value }));
      if (meaning) one.append(make('div', { class: 'faint' }, meaning));
      if (value === written) one.setAttribute('aria-pressed', 'true');
      return one;
    });
    return make('div', { class: 'answers', role: 'group', 'aria-labelledby': 'question' }, ...buttons);
  }

  private typed({ unit, example, written = '' }: Question): HTMLElement {
    const input = make('input', { 'aria-labelledby': 'question', autocomplete: 'off' }) as HTMLInputElement;
    input.value = written;
    input.placeholder = [...(unit ? [`in ${unit}`] : []), ...(example ? [`such as ${example}`] : [])].join('; ');
    const answer = () => {
      const typed = input.value.trim();
      return this.put(typed === '' ? 'unknown' : typed === written ? 'keep' : { answer: typed });
    };
    input.addEventListener('keydown', ({ key }) => {
      if (key === 'Enter') void answer();
    });
    return make('div', { class: 'answers' }, input, this.reply('Write it', answer));
  }

  private reply(text: string, act: () => Promise<void>): HTMLElement {
    const button = make('button', { type: 'button' }, text);
    button.addEventListener('click', () => void act());
    return button;
  }
}
