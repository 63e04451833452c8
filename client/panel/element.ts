/** An element with attributes, and texts or elements in it; no text is ever read as markup. */
export function make(name: string, attributes: Record<string, string> = {}, ...inside: (Node | string)[]): HTMLElement {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

/** A button. Its `id` is how it is found again when what is around it is made anew. */
export function button(id: string, text: string, act: () => void, look = ''): HTMLButtonElement {
  const element = make('button', { type: 'button', id, class: look }, text) as HTMLButtonElement;
  element.addEventListener('click', act);
  return element;
}

/** A text for those who hear the page. */
export function heard(text: string): HTMLElement {
  return make('span', { class: 'heard' }, text);
}

/** Changes the page, and leaves the keyboard where it was, also where that was made anew. */
export function keepingFocus(change: () => void): void {
  const focused = document.activeElement;
  const top = document.documentElement.scrollTop;
  change();
  if (focused && !focused.isConnected && focused.id)
    document.getElementById(focused.id)?.focus({ preventScroll: true });
  document.documentElement.scrollTop = top;
}

/** A part of the page that is made anew only where what it shows is another. */
export class Part<Shown> {
  private shown = '';

  constructor(
    readonly element: HTMLElement,
    private readonly build: (shown: Shown) => readonly (Node | string)[],
  ) {}

  show(shown: Shown): void {
    const content = JSON.stringify(shown);
    if (content === this.shown) return;
    this.shown = content;
    this.element.replaceChildren(...this.build(shown));
  }
}

/** A part of the page that can be folded. */
export class Fold {
  readonly body = make('div');
  readonly element: HTMLDetailsElement;

  constructor(
    id: string,
    heading: string,
    private readonly toggled: (isShut: boolean) => void,
  ) {
    const summary = make('summary', { id }, make('h2', {}, heading));
    this.element = make('details', {}, summary, this.body) as HTMLDetailsElement;
    summary.addEventListener('click', (event) => {
      event.preventDefault();
      this.set(this.element.open);
      this.toggled(!this.element.open);
    });
  }

  set(isShut: boolean): void {
    this.element.open = !isShut;
  }
}
