import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { Entry } from '../analysis/worksheet.ts';
import { type Answers, type Asking, asking } from '../checking/ask.ts';
import type { Rule } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Build } from './build.ts';
import type { Bits, FieldsRead } from './fields-read.ts';

/** Trials that bring nothing new to share, after which no more is looked for. */
const MOST_BARREN = 4;

/**
 * A build and what the rules say of it, from which trials differ in some fields and nothing else. A rule that looks at none
 * of them, itself or by way of figures, says the same in each; and what is worked out of none of them holds in each, so that
 * it is worked out once.
 */
export class Ground {
  /** The rules that look at the fields. */
  readonly rules: readonly Rule[];
  private readonly shared: (Entry | undefined)[][];
  private barren = 0;
  private nearest: { plan: readonly StageAnalysis[]; answers: Answers };

  /** @param own the bits of the fields, of those that `read` tells apart */
  constructor(
    private readonly build: Build,
    readonly answers: Answers,
    private readonly read: FieldsRead,
    private readonly own: Bits,
  ) {
    const { plan } = build;
    this.rules = [...answers].flatMap(([rule, asked]) => ((read.byAnswers(asked, plan) & own) === 0 ? [] : [rule]));
    this.nearest = { plan, answers };
    this.shared = plan.map(() => []);
    this.gather(plan);
  }

  /** Whether what a rule says of a stage stands on the fields. */
  standsOn(rule: Rule, index: number): boolean {
    const asked = this.answers.get(rule)?.[index];
    return asked !== undefined && (this.read.byAnswers([asked], this.build.plan) & this.own) !== 0;
  }

  /** The stages with other values. */
  plan(values: Partial<BuildSheet>): readonly StageAnalysis[] {
    const { house, unread, assumed } = this.build;
    return analyze(values, house, this.nearest.plan, unread, assumed, this.shared);
  }

  /** The rules, to be asked about such stages. */
  asking(plan: readonly StageAnalysis[]): Asking {
    return asking(plan, this.build.house, this.nearest);
  }

  /** Has later trials start from one of which all is known, since they differ less from each other than from the build. */
  startFrom(plan: readonly StageAnalysis[], answers: Answers): void {
    for (const { worksheet } of plan) worksheet.settle();
    this.nearest = { plan, answers };
  }

  /** Takes over what a trial worked out of none of the fields. */
  gather(plan: readonly StageAnalysis[]): void {
    if (this.barren >= MOST_BARREN) return;
    let isNew = false;
    for (const { index, worksheet } of plan) {
      const shared = this.shared[index] as (Entry | undefined)[];
      for (const entry of worksheet.known) {
        if (!entry || shared[entry.node.index] || this.read.byEntry(entry, worksheet.source) & this.own) continue;
        shared[entry.node.index] = entry;
        isNew = true;
      }
    }
    this.barren = isNew ? 0 : this.barren + 1;
  }
}
