import { figures } from '../analysis/figures.ts';
import type { OpenCheck } from '../checking/finding.ts';
import { problemIdentity } from '../checking/identity.ts';
import type { Rule, Severity } from '../checking/rule.ts';
import { differing, isWrittenTheSame, pairsOf } from '../sheet/differing.ts';
import { type House, ofFolder, unitsIn } from '../sheet/house.ts';
import type { Problem } from '../sheet/problem.ts';
import type { Sheet } from '../sheet/read.ts';
import type { Steps } from '../text/steps.ts';
import { saysTheSame } from '../units/rewritten.ts';
import type { Dimension } from '../units/units.ts';
import { BuildState, type CellKey, isBeyond, type Known } from './build-state.ts';
import { type Cause, causesOf } from './causes.ts';
import { changedParts, ownValues } from './changed-parts.ts';
import type { FigureCell } from './model.ts';
import { type PutBack, type Side, Trials } from './put-back-trials.ts';

/** A finding or a problem of the text, in one of two builds. */
export type ComparedFinding = {
  /** What it is known by, in each stage of either build. */
  ids: readonly string[];
  rule: string;
  severity: Severity;
  message: string;
  stages: readonly string[];
  /** What was said of it before, where it was found before. */
  before?: { severity: Severity; message: string };
  /** Why the sheet accepts it now. */
  accepted?: string;
};

/** A figure that is another now, SI. */
export type ComparedFigure = CellKey & {
  name: string;
  dimension: Dimension;
  before?: FigureCell;
  after?: FigureCell;
  /** Whether it went beyond its limit, or came back within it. */
  crossed?: 'beyond' | 'within';
};

/** A check that could be made before. */
export type NoLongerChecked = Pick<OpenCheck, 'rule' | 'title' | 'lacks'> & {
  stage: string;
  /** What it found there before. */
  found?: string;
};

/** The findings that are not as they were. */
export type FindingChanges = {
  /** Not found before, of that rule about that field. */
  new: ComparedFinding[];
  /** More severe, further from the limit, or in more stages than before. */
  worse: ComparedFinding[];
  better: ComparedFinding[];
  /** Not found any more, or accepted now. */
  gone: ComparedFinding[];
};

/** What a change of a sheet does. */
export type Comparison = FindingChanges & {
  /** Checks that cannot be made any more. */
  unchecked: readonly NoLongerChecked[];
  figures: readonly ComparedFigure[];
  /** The parts of the change that did something, each with what it did. */
  causes: readonly Cause[];
  /** The parts of the change that did nothing of this. */
  withoutEffect: readonly PutBack[];
  /** Whether some parts of the change were not tried. */
  isCut: boolean;
  /** How much is as it was. */
  same: { findings: number; figures: number };
  /** Whether the texts are the same. */
  isSameText: boolean;
  /** Whether a part of the later text cannot be read. */
  isBroken: boolean;
};

/** What the change of one sheet into another does, and which of the changed fields does it. */
export function* comparisonOf(before: Side, after: Side, rules: readonly Rule[]): Steps<Comparison> {
  const renamed = renamedStages(before.sheet, after.sheet);
  const differences = differing(ownValues(before.sheet), ownValues(after.sheet), isWrittenTheSame);
  const rewritten = differences.filter((one) => one.kind === 'field' && saysTheSame(one.before, one.after));
  const old = new BuildState(buildOf(before), renamed, unitsIn(after.house));
  const all = new Trials(before, after, renamed, rules);
  const trimmed = new Trials(before, after, renamed, rules, rewritten);
  const isLeftOut = rewritten.length > 0 && sayTheSame(all.with([]), trimmed.with([]));
  const trials = isLeftOut ? trimmed : all;
  const now = trials.with([]);
  const found = findingChanges(old, now);
  const told = withProblems(found.changes, before.sheet, after.sheet);
  yield;
  const figuresNow = figureChanges(old, now);
  const { causes, idle, isCut } = yield* causesOf({
    old,
    trials,
    differences: isLeftOut ? differences.filter((one) => !rewritten.includes(one)) : differences,
    catalogs: changedParts(before.sheet, after.sheet, isWrittenTheSame),
    isOtherHouse: !isWrittenTheSame(withoutShelf(before.house), withoutShelf(after.house)),
    findings: Object.values(found.changes).flat(),
    figures: figuresNow.changed,
  });
  return {
    ...told,
    unchecked: uncheckedIn(old, now),
    figures: figuresNow.changed,
    causes,
    withoutEffect: [...idle, ...(isLeftOut ? rewritten.map((one) => ({ fields: [one] })) : [])],
    isCut,
    same: { findings: found.same, figures: figuresNow.same },
    isSameText: before.sheet.text === after.sheet.text,
    isBroken: after.sheet.unread.length > 0,
  };
}

/** House rules without the catalogs, whose parts are compared one by one. */
function withoutShelf(house: House): House {
  const { shelf: _, ...rules } = ofFolder(house);
  return rules;
}

function buildOf({ sheet, plan, verdict, accepted, open }: Side) {
  return { values: sheet.values, plan, findings: verdict.findings, accepted, open };
}

/** The stages of the earlier sheet by the names they have in the later one. */
function renamedStages(before: Sheet, after: Sheet): Map<string, string> {
  const [olds, nows] = [before.values.stages ?? [{}], after.values.stages ?? [{}]];
  const named = (stages: readonly { name?: string }[], index: number) => stages[index]?.name ?? `stage ${index + 1}`;
  return new Map(
    pairsOf(olds, nows, isWrittenTheSame).map(([old, now]) => [named(olds, old), named(nows, now)] as const),
  );
}

/** Whether the same is found in two states of a build. */
function sayTheSame(one: BuildState, other: BuildState): boolean {
  const { changes } = findingChanges(one, other);
  return Object.values(changes).every((list) => list.length === 0) && uncheckedIn(one, other).length === 0;
}

const RANK: Readonly<Record<Severity, number>> = { error: 3, warning: 2, information: 1, hint: 0 };

function findingChanges(old: BuildState, now: BuildState): { changes: FindingChanges; same: number } {
  const changes: FindingChanges = { new: [], worse: [], better: [], gone: [] };
  let same = 0;
  for (const known of now.findings) {
    const earlier = sameIn(old.findings, known);
    const way = earlier ? wayOf(known, earlier, (id) => isOfBoth(id, known, old, now)) : 'new';
    if (way) changes[way].push(compared(known, now, earlier));
    else same++;
  }
  for (const known of old.findings) {
    if (sameIn(now.findings, known) || isOpenNow(known, old, now)) continue;
    const accepted = sameIn(now.accepted, known)?.reason;
    changes.gone.push({ ...compared(known, old), ...(accepted !== undefined && { accepted }) });
  }
  return { changes, same };
}

/** The finding of another build that is the same: in one of its stages at least, else of its rule about its field. */
function sameIn<One extends Known>(others: readonly One[], { ids, subject }: Known): One | undefined {
  return (
    others.find((other) => other.ids.some((id) => ids.includes(id))) ??
    others.find((other) => other.subject === subject)
  );
}

/** Whether the check that found something cannot be made any more, in one of its stages at least. */
function isOpenNow({ finding }: Known, old: BuildState, now: BuildState): boolean {
  return finding.stages.some((stage) => now.open.has(`${finding.found} in ${old.stages[stage]}`));
}

/** Whether an identity is about a stage that both builds have: what comes or goes with its stage is as it was. */
function isOfBoth(id: string, { subject }: Known, old: BuildState, now: BuildState): boolean {
  const stage = id.slice(subject.length + ' in '.length);
  return stage === '' || (old.stages.includes(stage) && now.stages.includes(stage));
}

function wayOf(
  { finding, ids }: Known,
  { finding: before, ids: idsBefore }: Known,
  counts: (id: string) => boolean,
): 'worse' | 'better' | undefined {
  const bySeverity = RANK[finding.severity] - RANK[before.severity];
  if (bySeverity !== 0) return bySeverity > 0 ? 'worse' : 'better';
  if (ids.some((id) => counts(id) && !idsBefore.includes(id))) return 'worse';
  if (idsBefore.some((id) => counts(id) && !ids.includes(id))) return 'better';
  const [miss, missBefore] = [finding.excess ?? 0, before.excess ?? 0];
  const isClose = Math.abs(miss - missBefore) <= 1e-3 * Math.abs(missBefore);
  if (isClose || finding.message === before.message) return undefined;
  return miss > missBefore ? 'worse' : 'better';
}

function compared({ finding, ids }: Known, { stages }: BuildState, before?: Known): ComparedFinding {
  const { rule, severity, message } = finding;
  return {
    ids: [...new Set([...ids, ...(before?.ids ?? [])])],
    rule,
    severity,
    message,
    stages: finding.stages.map((stage) => stages[stage] ?? String(stage + 1)),
    ...(before && { before: { severity: before.finding.severity, message: before.finding.message } }),
  };
}

/** The changes of findings, with the problems of the texts that came and went. */
function withProblems(changes: FindingChanges, before: Sheet, after: Sheet): FindingChanges {
  const missing = (sheet: Sheet, other: Sheet) => {
    const known = new Set(other.problems.map((problem) => problemIdentity(other, problem)));
    return sheet.problems.flatMap((problem) => {
      const id = problemIdentity(sheet, problem);
      return known.has(id) ? [] : [problemFinding(problem, id)];
    });
  };
  return {
    ...changes,
    new: [...missing(after, before), ...changes.new],
    gone: [...missing(before, after), ...changes.gone],
  };
}

function problemFinding({ code, severity, message }: Problem, id: string): ComparedFinding {
  return { ids: [id], rule: code, severity: severity ?? 'error', message, stages: [] };
}

function uncheckedIn(old: BuildState, now: BuildState): NoLongerChecked[] {
  return [...now.open].flatMap(([key, { check, stage }]) => {
    if (old.open.has(key) || !old.stages.includes(stage)) return [];
    const { rule, title, lacks } = check;
    const found = old.findings.find(
      ({ finding, ids }) => finding.found === rule && ids.some((id) => id.endsWith(` in ${stage}`)),
    );
    return [{ rule, title, lacks, stage, ...(found && { found: found.finding.message }) }];
  });
}

/** Every figure that shows otherwise or is on the other side of its limit, in the stages both builds have. */
function figureChanges(old: BuildState, now: BuildState): { changed: ComparedFigure[]; same: number } {
  const changed: ComparedFigure[] = [];
  let same = 0;
  for (const { id: figure, name, dimension } of figures)
    for (const stage of now.stages) {
      if (!old.stages.includes(stage)) continue;
      const key = { figure, stage };
      const [before, after] = [old.cell(key), now.cell(key)];
      if (!before && !after) continue;
      if (old.shown(key) === now.shown(key)) {
        same++;
        continue;
      }
      const crossed = isBeyond(before) === isBeyond(after) ? undefined : isBeyond(after) ? 'beyond' : 'within';
      changed.push({
        ...key,
        name,
        dimension,
        ...(before && { before }),
        ...(after && { after }),
        ...(crossed && { crossed }),
      });
    }
  return { changed: changed.toSorted((one, other) => Number(!one.crossed) - Number(!other.crossed)), same };
}
