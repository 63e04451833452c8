import { type Diagnostic as Mark, setDiagnostics } from '@codemirror/lint';
import type { Diagnostic } from 'vscode-languageserver';
import { make } from '../../client/panel/element.ts';
import { type Doer, offerActions } from './actions.ts';
import { show } from './dialog.ts';
import type { Editor } from './editor.ts';
import { part } from './element.ts';

const SEVERITIES = ['', 'error', 'warning', 'info', 'hint'] as const;
const WORDS = { error: 'error', warning: 'warning', info: 'note', hint: 'hint' };

/** What is wrong with the text, under it and as a list. */
export class Findings {
  private readonly list = part('findings');
  private turn = 0;

  private readonly editor: Editor;

  constructor(private readonly doer: Doer) {
    this.editor = doer.editor;
  }

  /** Looks at the text as it is now; whether it is still that once it is known. */
  async update(): Promise<boolean> {
    const turn = ++this.turn;
    const report = await this.editor.ask<{ items?: Diagnostic[] }>('textDocument/diagnostic');
    if (turn !== this.turn || !report) return false;
    this.show(report.items ?? []);
    return true;
  }

  private show(found: readonly Diagnostic[]): void {
    const { view } = this.editor;
    const marks = found.map((one): Mark => {
      const from = this.editor.offsetOf(one.range.start);
      return {
        from,
        to: Math.max(from, this.editor.offsetOf(one.range.end)),
        severity: severityOf(one),
        message: textOf(one),
        actions: [{ name: 'What can be done', apply: () => void this.offer(one) }],
      };
    });
    view.dispatch(setDiagnostics(view.state, marks));
    const order = found.toSorted((one, other) => (one.severity ?? 1) - (other.severity ?? 1));
    const count = make('p', {}, verdict(found));
    this.list.replaceChildren(count, make('ul', { class: 'plain' }, ...order.map((one) => this.row(one))));
  }

  private row(one: Diagnostic): HTMLElement {
    const severity = severityOf(one);
    const text = make(
      'button',
      { type: 'button', class: 'plain' },
      make('span', { class: `severity ${severity}` }, WORDS[severity]),
      ` line ${one.range.start.line + 1}: ${textOf(one)}`,
    );
    text.addEventListener('click', () => this.editor.reveal(one.range));
    const act = make(
      'button',
      { type: 'button', 'aria-label': `What can be done: ${textOf(one)}` },
      'What can be done',
    );
    act.addEventListener('click', () => void this.offer(one));
    const code = String(one.code ?? '');
    const why = make('button', { type: 'button', class: 'code', 'aria-label': `${code}: why` }, code);
    why.addEventListener('click', () => void this.explain(code));
    return make('li', {}, text, act, ' ', why);
  }

  private offer({ range }: Diagnostic): Promise<void> {
    return offerActions(this.doer, range, true);
  }

  /** Shows why a rule is there, what to look at, and by which source. */
  private async explain(code: string): Promise<void> {
    const page = await this.editor.ask<{ markdown: string }>('buildSheet/page', { page: 'rule', code });
    const told = make('div', { class: 'told', tabindex: '0' });
    told.innerHTML = this.editor.shown(page?.markdown ?? 'There is no more to tell of it.');
    show(code, told);
  }
}

function textOf({ message }: Diagnostic): string {
  return typeof message === 'string' ? message : message.value;
}

function severityOf({ severity = 1 }: Diagnostic) {
  return SEVERITIES[severity] || 'error';
}

function verdict(found: readonly Diagnostic[]): string {
  const count = (severity: number, one: string) => {
    const number = found.filter((finding) => (finding.severity ?? 1) === severity).length;
    return number > 0 ? [`${number} ${one}${number === 1 ? '' : 's'}`] : [];
  };
  const told = [...count(1, 'error'), ...count(2, 'warning'), ...count(3, 'note'), ...count(4, 'hint')];
  return told.length > 0 ? `${told.join(', ')}.` : 'Nothing wrong is found in what the sheet says so far.';
}
