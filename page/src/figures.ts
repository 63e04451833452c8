import type { WorkspaceEdit } from 'vscode-languageserver';
import {
  beginning,
  type FromPanel,
  type Section,
  type Figures as Shown,
  type State,
  sectionNames,
  type ToPanel,
  type Triable,
} from '../../client/panel/messages.ts';
import { editsFor } from './actions.ts';
import type { Editor } from './editor.ts';
import { part } from './element.ts';
import { isSheet } from './files.ts';

const BESIDES = { nothing: 'nothing', saved: 'the sheet as it was opened' };

/** The panel of figures, in a frame of its own: it asks nobody but this page. */
export class FiguresPanel {
  private readonly frame = part('figures').querySelector('iframe') as HTMLIFrameElement;
  private state: State = beginning;
  private turn = 0;
  private isReady = false;

  constructor(
    private readonly editor: Editor,
    private readonly around: { ask: () => void; opened: () => string; tell: (text: string) => void },
  ) {
    window.addEventListener('message', ({ source, data }: MessageEvent<FromPanel>) => {
      if (source === this.frame.contentWindow) void this.take(data);
    });
    this.frame.src = 'figures.html';
  }

  /** Shows the sheet as it is now, where the panel is seen. */
  async update(): Promise<void> {
    const turn = ++this.turn;
    if (!this.isReady || part('figures').hidden) return;
    const { uri } = this.editor;
    if (!isSheet(uri)) return this.say({ kind: 'nothing', text: 'Open a build sheet.' });
    if (this.state.uri !== uri) this.become({ uri, settings: [] });
    const { settings, shut, beside } = this.state;
    const before = beside === 'saved' ? { before: this.around.opened() } : {};
    const figures = await this.editor.ask<Shown>('buildSheet/figures', { settings, shut, ...before });
    if (turn !== this.turn || !figures) return;
    this.say({ kind: 'figures', state: this.state, besides: BESIDES, figures });
    this.tellCursor();
    for (const name of sectionNames.filter((one) => !shut.includes(one))) {
      const section = await this.editor.ask<Section>('buildSheet/figuresSection', { section: name });
      if (turn !== this.turn) return;
      if (section) this.say({ kind: 'section', name, section });
    }
  }

  tellCursor(): void {
    if (this.isReady) this.say({ kind: 'cursor', ...this.editor.cursor });
  }

  /** Another state than the panel has: one of a later turn. */
  private become(part: Partial<State>): void {
    this.state = { ...this.state, ...part, turn: this.state.turn + 1 };
  }

  private say(message: ToPanel): void {
    this.frame.contentWindow?.postMessage(message, location.origin);
  }

  private async take(message: FromPanel): Promise<void> {
    if (message.kind === 'ready') this.isReady = true;
    if (message.kind === 'ask') return this.around.ask();
    if (message.kind === 'reveal') return this.editor.reveal(message.range);
    if (message.kind === 'write') return this.write();
    if (message.kind === 'triable') {
      const fields = await this.editor.ask<readonly Triable[]>('buildSheet/triable');
      if (fields) this.say({ kind: 'triable', fields });
      return;
    }
    if (message.kind === 'state') this.state = { ...this.state, ...message.state };
    await this.update();
  }

  private async write(): Promise<void> {
    const { settings } = this.state;
    const answer = await this.editor.ask<WorkspaceEdit>('buildSheet/whatIf', { settings });
    const edits = editsFor(this.editor.uri, answer);
    if (!edits) return this.around.tell('What was tried does not hold in the sheet as it is; nothing was written.');
    this.become({ settings: [] });
    this.editor.apply(edits);
  }
}
