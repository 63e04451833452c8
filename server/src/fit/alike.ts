import type { ShelfPart } from '../sheet/shelf.ts';
import type { Bench, Refusal, Values } from './choosing.ts';
import { alikeOption, type Option, optionOf, type Placing } from './option.ts';

const keys = new WeakMap<ShelfPart, string>();

/** What a part does and how it is sold: the same for parts that differ in nothing but what they are called and cost. */
function alikeKey(part: ShelfPart): string {
  let key = keys.get(part);
  if (key === undefined) {
    const { name: _, cost: __, ...fields } = part.fields;
    key = JSON.stringify([part.kind, fields, part.sold, part.costPer?.value]);
    keys.set(part, key);
  }
  return key;
}

type Judged = { refusal: Refusal } | { values: Values; option: Option };

/** Parts as they are judged on a bench; of those that do the same one is tried, and the others have its result at their price. */
export class Judging {
  private readonly known = new Map<string, Judged>();

  constructor(private readonly bench: Bench) {}

  /** @param valuesOf the build with the parts in their slots */
  judge(placings: readonly Placing[], valuesOf: () => Values): { refusal: Refusal } | { option: Option } {
    const key = placings.map(({ part }) => alikeKey(part)).join(' ');
    const { empty } = this.bench;
    const known = this.known.get(key);
    if (known) return 'refusal' in known ? known : { option: alikeOption(empty, known.values, known.option, placings) };
    const found = this.bench.attempt(valuesOf());
    const judged =
      'refusal' in found ? found : { values: found.trial.values, option: optionOf(empty, found.trial, placings) };
    this.known.set(key, judged);
    return judged;
  }
}
