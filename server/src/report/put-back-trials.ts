import { analyze } from '../analysis/analysis.ts';
import type { Answers } from '../checking/ask.ts';
import type { Checked } from '../checking/checked.ts';
import { judge } from '../checking/judge.ts';
import { settledOverRanges } from '../checking/over-range.ts';
import type { Rule } from '../checking/rule.ts';
import { type Differing, putBack } from '../sheet/differing.ts';
import { unitsIn } from '../sheet/house.ts';
import { kept } from '../sheet/kept.ts';
import { takeOver } from '../sheet/take-over.ts';
import { BuildState } from './build-state.ts';
import { type ChangedPart, ownValues, shelfWith } from './changed-parts.ts';

/** A part of a change that can be put back by itself: some fields, what a catalog says of a part, or the house rules. */
export type PutBack = { fields: readonly Differing[] } | { catalog: ChangedPart } | { house: true };

/** The fields that a part of a change changes, of the sheet or of what a catalog says of a part. */
export function differencesOf(part: PutBack): readonly Differing[] {
  if ('house' in part) return [];
  return 'catalog' in part ? part.catalog.fields : part.fields;
}

/** One of two builds that are compared. */
export type Side = Pick<Checked, 'sheet' | 'plan' | 'house' | 'verdict' | 'open' | 'accepted'>;

/** The later build with parts of the change put back to what they were; each combination is worked out once. */
export class Trials {
  private readonly states = new Map<string, BuildState>();
  private readonly names = new Map<PutBack | Differing, number>();

  /** `always`: what is put back in every one of them. */
  constructor(
    private readonly before: Side,
    private readonly after: Side,
    private readonly renamed: ReadonlyMap<string, string>,
    private readonly rules: readonly Rule[],
    private readonly always: readonly Differing[] = [],
  ) {}

  /** How many were worked out. */
  get count(): number {
    return this.states.size;
  }

  with(parts: readonly PutBack[]): BuildState {
    const fields = [...this.always, ...parts.flatMap((part) => ('fields' in part ? part.fields : []))];
    const isOldHouse = parts.some((part) => 'house' in part);
    const ids = new Set(parts.flatMap((part) => ('catalog' in part ? part.catalog.id : [])));
    const key = [...fields.map((one) => this.numberOf(one)), isOldHouse, ...ids].join(' ');
    let state = this.states.get(key);
    if (!state) {
      state = this.tried(fields, ids, isOldHouse);
      this.states.set(key, state);
    }
    return state;
  }

  private numberOf(one: Differing): number {
    const number = this.names.get(one) ?? this.names.size;
    this.names.set(one, number);
    return number;
  }

  private tried(fields: readonly Differing[], ids: ReadonlySet<string>, isOldHouse: boolean): BuildState {
    const { sheet, plan: known, verdict } = this.after;
    const house = isOldHouse ? this.before.house : this.after.house;
    const values = this.values(fields, ids);
    const plan = analyze(values, house, isOldHouse ? [] : known, sheet.unread);
    const isAsBefore =
      !isOldHouse && plan.length === known.length && plan.every(({ name }, index) => name === known[index]?.name);
    const settle = (answers: Answers) => settledOverRanges({ values, unread: sheet.unread }, plan, house, answers);
    const found = judge(values, plan, house, isAsBefore ? verdict : undefined, this.rules, settle);
    return new BuildState({ ...found, values }, this.renamed, unitsIn(this.after.house));
  }

  /** The values of the later sheet with fields put back, and parts as the catalogs had them before. */
  private values(fields: readonly Differing[], ids: ReadonlySet<string>): Side['sheet']['values'] {
    const { sheet } = this.after;
    if (fields.length === 0 && ids.size === 0) return sheet.values;
    const { values } = takeOver(putBack(ownValues(sheet), fields), shelfWith(ids, this.before.sheet, sheet));
    return kept(sheet.values, values);
  }
}
