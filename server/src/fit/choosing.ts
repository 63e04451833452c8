import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import { type Answers, type Asked, answersOf } from '../checking/ask.ts';
import type { Checked } from '../checking/checked.ts';
import type { Finding } from '../checking/finding.ts';
import { identities } from '../checking/identity.ts';
import { foundBy, mayBeError, rulesIn } from '../checking/judge.ts';
import type { Rule } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Build } from './build.ts';
import { completed } from './completed.ts';
import { type Bits, FieldsRead } from './fields-read.ts';
import { Ground } from './ground.ts';
import { valuesWith } from './slot-values.ts';

/** What parts cost is measured beside what is found, by the wishes that they meet. */
const OVER_BUDGET = 'plan/over-budget';

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
  /** What the rules say of it that can refuse a part or speak against it. */
  readonly answers: Answers;

  constructor(
    readonly checked: Checked,
    rules: readonly Rule[],
  ) {
    const { house, verdict } = checked;
    this.build = completed(checked);
    const grave = rulesIn(house, rules).filter(
      (rule) => rule.id !== OVER_BUDGET && (mayBeError(rule, house) || rule.severity === 'warning'),
    );
    this.answers = answersOf(grave, this.build.plan, house, verdict);
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
  private readonly build: Build;
  private readonly ground: Ground;
  private readonly read: FieldsRead;
  private readonly known: ReadonlySet<string>;
  /** Rules that may find an error, the last to refuse first. */
  private readonly refusing: Rule[];

  constructor(choosing: Choosing, slots: readonly Slot[], group: readonly Slot[]) {
    const { house, plan: before, unread, assumed } = choosing.build;
    const values = slots.reduce((left, slot) => valuesWith(left, slot, undefined), choosing.build.values);
    const plan = analyze(values, house, before, unread, assumed);
    this.build = { ...choosing.build, values, plan };
    const answers = answersOf([...choosing.answers.keys()], plan, house, { plan: before, answers: choosing.answers });
    this.empty = this.trialOf(values, plan, answers);
    this.known = new Set(this.empty.errors.flatMap(identities));
    this.read = new FieldsRead(group.map(({ field }) => field));
    this.ground = new Ground(this.build, answers, this.read, this.read.bitsOf(slots.map(({ field }) => field)));
    this.refusing = this.ground.rules.filter((rule) => mayBeError(rule, house));
  }

  /**
   * Values in which the slots, and nothing else, differ from those with the slots empty: the first error found that they
   * bring, or, where they bring none, all that is found.
   */
  attempt(values: Values): { refusal: Refusal } | { trial: Trial } {
    const { ground } = this;
    const plan = ground.plan(values);
    const ask = ground.asking(plan);
    const answers = new Map<Rule, readonly Asked[]>();
    for (const [index, rule] of this.refusing.entries()) {
      const own = ask.everywhere(rule);
      answers.set(rule, own);
      if (own.every(({ drafts }) => drafts.length === 0)) continue;
      const [error] = this.newIn(this.trialOf(values, plan, new Map([[rule, own]])).errors);
      if (!error) continue;
      this.refusing.splice(index, 1);
      this.refusing.unshift(rule);
      return { refusal: { error, rule, stands: this.read.byAnswers(own, plan) } };
    }
    for (const rule of ground.rules) if (!answers.has(rule)) answers.set(rule, ask.everywhere(rule));
    ground.gather(plan);
    ground.startFrom(plan, answers);
    return { trial: this.trialOf(values, plan, answers) };
  }

  /** All that is found with values in which nothing but the slots differs. */
  trial(values: Values): Trial {
    const plan = this.ground.plan(values);
    const ask = this.ground.asking(plan);
    return this.trialOf(values, plan, new Map(this.ground.rules.map((rule) => [rule, ask.everywhere(rule)])));
  }

  /** All that is found with values that may differ elsewhere as well. */
  wholeTrial(values: Values): Trial {
    const { house, plan: before, unread, assumed } = this.build;
    const { answers } = this.ground;
    const plan = analyze(values, house, before, unread, assumed);
    return this.trialOf(values, plan, answersOf([...answers.keys()], plan, house, { plan: before, answers }));
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

  private trialOf(values: Values, plan: readonly StageAnalysis[], answers: Answers): Trial {
    const findings = foundBy(values, plan, this.build.house, answers);
    return { values, plan, findings, errors: findings.filter(({ severity }) => severity === 'error') };
  }
}
