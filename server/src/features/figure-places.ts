import { isKnown } from '../analysis/figure.ts';
import { type FigureNode, isLeaf } from '../analysis/node.ts';
import type { Entry } from '../analysis/worksheet.ts';
import type { Checked } from '../checking/checked.ts';
import { type FieldPath, type Path, stepsOf } from '../sheet/path.ts';
import { entryOf } from '../sheet/read.ts';
import type { Range } from '../text/place.ts';

/** The places in a text of the fields that figures are about, each once, and for each figure the numbers of its places. */
export class FigurePlaces {
  readonly all: Range[] = [];
  private readonly numbers = new Map<number, number>();
  private readonly byField = new Map<string, number | undefined>();

  constructor(private readonly checked: Checked) {}

  /** The fields a figure is at home on, then those it is computed from directly; where the text has none, what is around. */
  of(node: FigureNode): number[] {
    const found = new Set<number>();
    const add = (path: Path) => {
      const number = this.numberOf(path);
      if (number !== undefined) found.add(number);
    };
    for (const home of node.home) add(stepsOf(home));
    for (const stage of this.checked.plan) {
      if (!isKnown(stage.see(node))) continue;
      for (const field of fieldsUnder(stage.worksheet.entryOf(node))) add(stage.sheet.placeOf(field));
    }
    return [...found];
  }

  private numberOf(path: Path): number | undefined {
    const text = path.join('.');
    if (!this.byField.has(text)) this.byField.set(text, this.placed(path));
    return this.byField.get(text);
  }

  private placed(path: Path): number | undefined {
    const entry = entryOf(this.checked.sheet, path);
    if (!entry?.key || entry.inherited) return undefined;
    const { start } = entry.key;
    const known = this.numbers.get(start);
    if (known !== undefined) return known;
    this.numbers.set(start, this.all.length);
    return this.all.push({ start, end: entry.value.end }) - 1;
  }
}

const fields = new WeakMap<Entry, ReadonlySet<FieldPath>>();

/** The fields that a value was read from, also through what is no figure of its own. */
function fieldsUnder(entry: Entry): ReadonlySet<FieldPath> {
  const known = fields.get(entry);
  if (known) return known;
  const found = new Set<FieldPath>();
  for (const used of entry.used) {
    if (isLeaf(used.node)) found.add(used.node.id as FieldPath);
    else if (!('home' in used.node)) for (const field of fieldsUnder(used)) found.add(field);
  }
  fields.set(entry, found);
  return found;
}
