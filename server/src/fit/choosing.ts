import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { Entry } from '../analysis/worksheet.ts';
import { type Answers, type Asked, asking } from '../checking/ask.ts';
import type { Checked } from '../checking/checked.ts';
import type { Finding } from '../checking/finding.ts';
import { identities } from '../checking/identity.ts';
import { findingsOf, judge, mayBeError, type Verdict } from '../checking/judge.ts';
import { NOT_COMPUTED } from '../checking/not-computed.ts';
import type { Rule } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Build } from './build.ts';
import { completed } from './completed.ts';
import { valuesWith } from './slot-values.ts';
import { type Bits, SlotsRead } from './slots-read.ts';

/** What parts cost is measured beside what is found, by the wishes that they meet. */
const OVER_BUDGET = 'plan/over-budget';

/** Trials after which what they share is known. */
const MOST_GATHERED = 4;

export type Values = Partial<BuildSheet>;

/** A build with other values, and what the rules find wrong with it. */
export type Trial = {
  values: Values;
  plan: readonly StageAnalysis[];
  findings: readonly Finding[];
  errors: readonly Finding[];
};

/** An error that a trial brings, and the slots without which the rule would not have told it so. */
export type Refusal = { error: Finding; rule: Rule; stands: Bits };

/** A sheet with usual values where it says nothing, in which parts are tried. */
export class Choosing {
  readonly build: Build;
  readonly grave: readonly Rule[];

  constructor(
    readonly checked: Checked,
    rules: readonly Rule[],
  ) {
    this.build = completed(checked);
    this.grave = rules.filter(
      (rule) => rule.id !== OVER_BUDGET && (mayBeError(rule, checked.house) || rule.severity === 'warning'),
    );
  }

  /** The parts of the catalogs for a slot. */
  candidates({ kind }: Slot): readonly ShelfPart[] {
    return this.build.house.shelf?.ofKind(kind) ?? [];
  }

  /** What there is to try parts for some slots against: the build with nothing in them; `group`: slots that refusals are told of. */
  without(slots: readonly Slot[], group: readonly Slot[] = slots): Bench {
    return new Bench(this, slots, group);
  }
}

/**
 * The build with some slots empty, against which parts for them are tried. Only rules that look at these slots are asked,
 * since what nothing is changed under stays as it is. A part that does not do it is mostly refused by the rule that refused
 * the one before, so that those are asked first and the others need not be.
 */
export class Bench {
  readonly empty: Trial;
  readonly read: SlotsRead;
  private readonly verdict: Verdict;
  private readonly known: ReadonlySet<string>;
  /** Rules that look at the slots. */
  private readonly asked: readonly Rule[];
  /** Those that may find an error, the last to refuse first. */
  private readonly refusing: Rule[];
  /** What is worked out of nothing in the slots, stage by stage, so that it holds in every trial. */
  private readonly shared: (Entry | undefined)[][];
  private gathered = 0;
  private readonly own: Bits;

  constructor(
    private readonly choosing: Choosing,
    slots: readonly Slot[],
    group: readonly Slot[],
  ) {
    const { build, grave } = choosing;
    const { house, unread, assumed } = build;
    const values = slots.reduce((left, slot) => valuesWith(left, slot, undefined), build.values);
    const plan = analyze(values, house, build.plan, unread, assumed);
    this.verdict = judge(values, plan, house, undefined, grave);
    this.empty = trialOf(values, plan, this.verdict.findings);
    this.known = new Set(this.empty.errors.flatMap(identities));
    this.read = new SlotsRead(group);
    const own = this.read.bitsOf(slots);
    this.asked = grave.filter((rule) => {
      const answers = this.verdict.answers.get(rule);
      return answers !== undefined && (this.read.byAnswers(answers, plan) & own) !== 0;
    });
    this.refusing = this.asked.filter((rule) => mayBeError(rule, house));
    this.own = own;
    this.shared = plan.map(() => []);
    this.gather(plan);
  }

  /**
   * Values in which the slots, and nothing else, differ from those with the slots empty: the first error found that they
   * bring, or, where they bring none, all that is found.
   */
  attempt(values: Values): { refusal: Refusal } | { trial: Trial } {
    const { plan, ask } = this.asking(values);
    const answers = new Map<Rule, readonly Asked[]>();
    for (const [index, rule] of this.refusing.entries()) {
      const own = ask(rule);
      answers.set(rule, own);
      if (own.every(({ drafts }) => drafts.length === 0)) continue;
      const found = this.found(values, plan, new Map([[rule, own]]));
      const [error] = this.newIn(found.filter(({ severity }) => severity === 'error'));
      if (!error) continue;
      this.refusing.splice(index, 1);
      this.refusing.unshift(rule);
      return { refusal: { error, rule, stands: this.read.byAnswers(own, plan) } };
    }
    for (const rule of this.asked) if (!answers.has(rule)) answers.set(rule, ask(rule));
    this.gather(plan);
    return { trial: trialOf(values, plan, this.found(values, plan, answers)) };
  }

  /** All that is found with values in which nothing but the slots differs. */
  trial(values: Values): Trial {
    return this.tried(values, this.asked);
  }

  /** All that is found with values that may differ elsewhere as well. */
  wholeTrial(values: Values): Trial {
    return this.tried(values, this.choosing.grave);
  }

  /** Errors that are not there with the slots empty, each in the stages in which it is new. */
  newIn(errors: readonly Finding[]): Finding[] {
    return errors.flatMap((finding) => {
      if (finding.stages.length === 0) return identities(finding).some((one) => !this.known.has(one)) ? [finding] : [];
      const stages = finding.stages.filter((stage) =>
        identities({ ...finding, stages: [stage] }).some((one) => !this.known.has(one)),
      );
      return stages.length > 0 ? [{ ...finding, stages }] : [];
    });
  }

  private tried(values: Values, rules: readonly Rule[]): Trial {
    const { plan, ask } = this.asking(values);
    const answers = new Map(rules.map((rule) => [rule, ask(rule)]));
    return trialOf(values, plan, this.found(values, plan, answers));
  }

  private asking(values: Values) {
    const { house, unread, assumed } = this.choosing.build;
    const plan = analyze(values, house, this.empty.plan, unread, assumed, this.shared);
    return { plan, ask: asking(plan, house, this.verdict) };
  }

  /** Takes over what a trial worked out of nothing in the slots; after the first trials there is nothing new. */
  private gather(plan: readonly StageAnalysis[]): void {
    if (this.gathered++ > MOST_GATHERED) return;
    for (const { index, worksheet } of plan) {
      const shared = this.shared[index] ?? [];
      for (const entry of worksheet.known)
        if (entry && (this.read.byEntry(entry, worksheet.source) & this.own) === 0) shared[entry.node.index] = entry;
    }
  }

  private found(values: Values, plan: readonly StageAnalysis[], answers: Answers): Finding[] {
    const { left } = findingsOf(values, plan, this.choosing.build.house, answers);
    return left.filter(({ found }) => found !== NOT_COMPUTED);
  }
}

function trialOf(values: Values, plan: readonly StageAnalysis[], findings: readonly Finding[]): Trial {
  return { values, plan, findings, errors: findings.filter(({ severity }) => severity === 'error') };
}
