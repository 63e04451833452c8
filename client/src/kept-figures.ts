import type { Memento } from 'vscode';
import { beginning, type Setting, type State } from '../panel/messages.ts';

const LAST = 'figures';
const triedIn = (uri: string) => `figures: tried in ${uri}`;

/**
 * What the panel of figures showed last, and what is tried in each sheet. The workspace keeps it, at once: what a webview keeps
 * itself, a workbench in a browser writes down every few seconds only, and never when it is left.
 */
export class KeptFigures {
  constructor(private readonly memento: Memento) {}

  /** The state to go on from. */
  get last(): State {
    const kept = this.memento.get<Omit<State, 'settings' | 'turn'>>(LAST);
    return kept ? this.at(kept.uri, { ...beginning, ...kept }) : beginning;
  }

  /** A state as it is over another sheet: with what is tried there. */
  at(uri: string, state: State): State {
    return { ...state, uri, settings: this.memento.get<readonly Setting[]>(triedIn(uri), []), turn: state.turn + 1 };
  }

  keep({ settings, turn, ...rest }: State): void {
    this.memento.update(LAST, rest);
    this.memento.update(triedIn(rest.uri), settings.length > 0 ? settings : undefined);
  }
}
