import { part } from './element.ts';

/** The tabs of the page: one panel is shown, arrow keys go from tab to tab. */
export class Tabs {
  private readonly tabs = [...document.querySelectorAll<HTMLElement>('[role="tab"]')];

  constructor(private readonly shown: (panel: string) => void) {
    for (const tab of this.tabs) part(panelOf(tab)).tabIndex = 0;
    for (const tab of this.tabs) {
      tab.addEventListener('click', () => this.open(panelOf(tab)));
      tab.addEventListener('keydown', (event) => {
        const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
        const shown = this.tabs.filter(({ hidden }) => !hidden);
        const next = step && shown.at((shown.indexOf(tab) + step) % shown.length);
        if (!next) return;
        event.preventDefault();
        next.focus();
        this.open(panelOf(next));
      });
    }
  }

  open(panel: string): void {
    for (const tab of this.tabs) {
      const isOpen = panelOf(tab) === panel;
      tab.setAttribute('aria-selected', String(isOpen));
      tab.tabIndex = isOpen ? 0 : -1;
      part(panelOf(tab)).hidden = !isOpen;
    }
    this.shown(panel);
  }

  /** Offers one panel alone, or all. */
  of(only: string | undefined): void {
    for (const tab of this.tabs) tab.hidden = only !== undefined && panelOf(tab) !== only;
    if (only !== undefined && this.current !== only) this.open(only);
  }

  get current(): string {
    const open = this.tabs.find((tab) => tab.getAttribute('aria-selected') === 'true');
    return open ? panelOf(open) : '';
  }
}

function panelOf(tab: HTMLElement): string {
  return tab.getAttribute('aria-controls') ?? '';
}
