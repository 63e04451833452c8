import { closeBrackets, closeBracketsKeymap, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, foldGutter, foldKeymap, HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { lintKeymap } from '@codemirror/lint';
import {
  findReferencesKeymap,
  formatKeymap,
  hoverTooltips,
  jumpToDefinitionKeymap,
  type LSPClient,
  LSPPlugin,
  renameKeymap,
  serverCompletion,
} from '@codemirror/lsp-client';
import { highlightSelectionMatches, searchKeymap } from '@codemirror/search';
import { EditorState, type Extension } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, keymap, lineNumbers, placeholder } from '@codemirror/view';
import { tags } from '@lezer/highlight';

export type Position = { line: number; character: number };
export type Range = { start: Position; end: Position };
export type Edit = { range: Range; newText: string };

const looks = EditorView.theme({
  '&': { height: '100%', color: 'var(--text)', backgroundColor: 'var(--ground)', fontSize: '14px' },
  '&.cm-focused': { outline: '2px solid var(--strong)', outlineOffset: '-2px' },
  '.cm-scroller': { fontFamily: 'ui-monospace, monospace', lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--text)' },
  '.cm-cursor': { borderLeftColor: 'var(--text)' },
  '.cm-gutters': { color: 'var(--faint)', backgroundColor: 'var(--raised)', borderRight: '1px solid var(--line)' },
  '.cm-activeLine': { backgroundColor: 'transparent', boxShadow: 'inset 3px 0 var(--strong)' },
  '.cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground': {
    background: 'var(--here)',
  },
  '.cm-selectionMatch, &.cm-focused .cm-matchingBracket': { backgroundColor: 'var(--here)' },
  '.cm-tooltip': {
    color: 'var(--text)',
    backgroundColor: 'var(--raised)',
    border: '1px solid var(--faint)',
    maxWidth: 'min(40rem, 92vw)',
  },
  '.cm-lsp-documentation': { maxHeight: '45vh', overflow: 'auto', fontFamily: 'system-ui, sans-serif' },
  '.cm-lsp-documentation table': { borderCollapse: 'collapse' },
  '.cm-lsp-documentation :is(th, td)': { textAlign: 'left', paddingRight: '0.8em', verticalAlign: 'top' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { color: 'var(--ground)', backgroundColor: 'var(--strong)' },
  '.cm-placeholder': { color: 'var(--faint)' },
  '.cm-completionDetail': { fontStyle: 'normal', opacity: '1' },
  '.cm-panels': { color: 'var(--text)', backgroundColor: 'var(--raised)' },
  '.cm-diagnosticAction': { backgroundColor: 'var(--strong)', color: 'var(--ground)' },
});

const colors = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: 'var(--key)' },
  { tag: [tags.string, tags.content, tags.attributeValue], color: 'var(--value)' },
  { tag: [tags.number, tags.bool, tags.null], color: 'var(--number)' },
  { tag: [tags.comment, tags.lineComment], color: 'var(--faint)', fontStyle: 'italic' },
  { tag: [tags.labelName, tags.typeName, tags.keyword], color: 'var(--number)' },
]);

/** What every text is edited with. `nonce` lets the editor style itself under the policy of the page. */
function usual(nonce: string): Extension {
  return [
    EditorView.cspNonce.of(nonce),
    lineNumbers(),
    foldGutter(),
    history(),
    drawSelection(),
    EditorView.lineWrapping,
    EditorState.tabSize.of(2),
    bracketMatching(),
    closeBrackets(),
    highlightActiveLine(),
    highlightSelectionMatches(),
    yaml(),
    syntaxHighlighting(colors),
    looks,
    serverCompletion({ override: true }),
    hoverTooltips(),
    placeholder('Type here, or take "Begin or open..." above: a new sheet, a file of yours, or a sample.'),
    EditorView.contentAttributes.of({ 'aria-label': 'Text of the sheet', tabindex: '0' }),
    keymap.of([
      ...closeBracketsKeymap,
      ...defaultKeymap,
      ...searchKeymap,
      ...historyKeymap,
      ...foldKeymap,
      ...completionKeymap,
      ...lintKeymap,
      ...formatKeymap,
      ...renameKeymap,
      ...jumpToDefinitionKeymap,
      ...findReferencesKeymap,
    ]),
  ];
}

/** The one editor of the page, in which one text after the other is opened. */
export class Editor {
  readonly view: EditorView;
  uri = '';
  private readonly base: Extension;

  constructor(
    parent: HTMLElement,
    nonce: string,
    readonly client: LSPClient,
    more: Extension,
  ) {
    this.base = [usual(nonce), more];
    this.view = new EditorView({ parent, extensions: [EditorView.cspNonce.of(nonce)] });
  }

  get text(): string {
    return this.view.state.doc.toString();
  }

  open(uri: string, text: string): void {
    this.uri = uri;
    this.view.setState(
      EditorState.create({ doc: text, extensions: [this.base, this.client.plugin(uri, 'build-sheet')] }),
    );
  }

  /** Asks the server about the text as it is now; nothing where there is no answer, or the text is another by then. */
  async ask<Answer>(method: string, params: object = {}): Promise<Answer | undefined> {
    const { doc } = this.view.state;
    this.client.sync();
    const asked = this.client.request<object, Answer | null>(method, { textDocument: { uri: this.uri }, ...params });
    const answer = await asked.catch(() => null);
    return doc === this.view.state.doc ? (answer ?? undefined) : undefined;
  }

  offsetOf({ line, character }: Position): number {
    const { doc } = this.view.state;
    const { from, to } = doc.line(Math.min(line + 1, doc.lines));
    return Math.min(from + character, to);
  }

  get cursor(): Position {
    const { head } = this.view.state.selection.main;
    const line = this.view.state.doc.lineAt(head);
    return { line: line.number - 1, character: head - line.from };
  }

  /** Puts the cursor at a place and shows it. */
  reveal({ start, end }: Range): void {
    const anchor = this.offsetOf(start);
    const head = end.line === start.line ? this.offsetOf(end) : anchor;
    this.view.dispatch({
      selection: { anchor, head },
      effects: EditorView.scrollIntoView(anchor, { y: 'center' }),
    });
    this.view.focus();
  }

  /** Makes edits and shows the first of them. */
  apply(edits: readonly Edit[]): void {
    const changes = edits.map(({ range, newText }) => ({
      from: this.offsetOf(range.start),
      to: this.offsetOf(range.end),
      insert: newText,
    }));
    const first = Math.min(...changes.map(({ from }) => from), this.view.state.doc.length);
    this.view.dispatch({ changes, userEvent: 'input', effects: EditorView.scrollIntoView(first, { y: 'nearest' }) });
  }

  /** Markdown of the server as markup that is safe to show. */
  shown(markdown: string): string {
    return LSPPlugin.get(this.view)?.docToHTML({ kind: 'markdown', value: markdown }) ?? '';
  }
}
