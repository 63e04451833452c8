import { button, make, Part } from './element.ts';
import type { Figures, Setting, Triable } from './messages.ts';

/** What the trying of other values asks of the page it stands in. */
type Around = {
  change: (settings: readonly Setting[]) => void;
  write: () => void;
  /** Asks for the fields that can be tried. */
  wanted: () => void;
};

type Shown = { settings: readonly Setting[]; refusal: string | undefined; tried: Figures['tried'] };

/** Other values to try: a form, what is tried, what that does, and what may become of it. */
export class Tries {
  readonly element: HTMLElement;
  private readonly field = make('input', {
    id: 'field',
    list: 'fields',
    required: '',
    autocomplete: 'off',
  }) as HTMLInputElement;
  private readonly value = make('input', { id: 'value', list: 'choices', autocomplete: 'off' }) as HTMLInputElement;
  private readonly present = make('p', { role: 'status', id: 'present' });
  private readonly fieldList = make('datalist', { id: 'fields' });
  private readonly choiceList = make('datalist', { id: 'choices' });
  private readonly outcome: Part<Shown>;
  private settings: readonly Setting[] = [];
  private fields: readonly Triable[] = [];

  constructor(private readonly around: Around) {
    this.outcome = new Part(make('div'), (shown) => this.outcomeOf(shown));
    const form = make(
      'form',
      {},
      make('label', {}, 'Field or part', this.field),
      make('label', {}, 'What if it were (empty: not given)', this.value),
      make('button', { id: 'try' }, 'Try it'),
      this.fieldList,
      this.choiceList,
    );
    this.field.addEventListener('focus', () => around.wanted());
    this.field.addEventListener('input', () => this.tellPresent());
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.add({ field: this.field.value.trim(), value: this.value.value.trim() });
    });
    this.element = make('section', {}, make('h2', {}, 'What if'), form, this.present, this.outcome.element);
  }

  show(settings: readonly Setting[], { refusal, tried }: Pick<Figures, 'refusal' | 'tried'>): void {
    this.settings = settings;
    this.outcome.show({ settings, refusal, tried });
  }

  /** Offers fields. */
  offer(fields: readonly Triable[]): void {
    this.fields = fields;
    this.fieldList.replaceChildren(...fields.map(({ field, value }) => make('option', { value: field }, value)));
    this.tellPresent();
  }

  private tellPresent(): void {
    const known = this.fields.find(({ field }) => field === this.field.value.trim());
    this.present.textContent = !known ? '' : known.value ? `It is ${known.value} now.` : 'The sheet does not give it.';
    this.choiceList.replaceChildren(...(known?.choices ?? []).map((value) => make('option', { value })));
  }

  private add(setting: Setting): void {
    this.around.change([...this.settings.filter(({ field }) => field !== setting.field), setting]);
    this.field.value = '';
    this.value.value = '';
    this.tellPresent();
    this.field.focus();
  }

  private drop(setting: Setting): void {
    this.field.focus();
    this.around.change(this.settings.filter(({ field }) => field !== setting.field));
  }

  private outcomeOf({ settings, refusal, tried }: Shown): HTMLElement[] {
    if (settings.length === 0) return [];
    const items = settings.map((one) =>
      make(
        'li',
        {},
        `${one.field} = ${one.value || 'not given'} `,
        button(`drop-${one.field}`, 'Drop', () => this.drop(one)),
      ),
    );
    const ends = [
      ...(refusal ? [] : [button('write', 'Write it into the sheet', this.around.write), ' ']),
      button('drop-all', 'Drop all', () => {
        this.field.focus();
        this.around.change([]);
      }),
    ];
    return [
      make(
        'p',
        {},
        settings.length === 1 ? 'Tried, with the sheet as it is:' : 'Tried together, with the sheet as it is:',
      ),
      make('ul', { class: 'tried' }, ...items),
      ...(refusal ? [make('p', { role: 'alert', class: 'missed' }, refusal)] : moved(tried)),
      make('p', {}, ...ends),
    ];
  }
}

/** What is found and no longer found with what is tried. */
function moved({ found, gone }: NonNullable<Figures['tried']> = { found: [], gone: [] }): HTMLElement[] {
  const list = (text: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : [make('p', {}, text), make('ul', {}, ...lines.map((line) => make('li', {}, line)))];
  if (found.length + gone.length === 0) return [make('p', {}, 'Nothing else is found with it.')];
  return [...list('Found with it, and not now:', found), ...list('No longer found with it:', gone)];
}
