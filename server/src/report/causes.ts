import type { Differing } from '../sheet/differing.ts';
import type { Steps } from '../text/steps.ts';
import type { BuildState, CellKey } from './build-state.ts';
import type { ChangedPart } from './changed-parts.ts';
import type { ComparedFigure, ComparedFinding } from './comparison.ts';
import type { PutBack, Trials } from './put-back-trials.ts';

/**
 * What of a change did something: it is undone where this is put back to what it was. Where no part of the change alone
 * undoes it, these only do together.
 */
export type Cause = { changes: readonly PutBack[]; findings: readonly ComparedFinding[]; figures: readonly CellKey[] };

/** Every cause, the parts of the change without an effect, and whether time was up before all were tried. */
export type Causes = { causes: readonly Cause[]; idle: readonly PutBack[]; isCut: boolean };

/** So many fields are put back one by one; of more, those of one section together. */
const MOST_ALONE = 40;

/** So many states are tried at most. */
const MOST_TRIALS = 300;

type Consequence = { finding: ComparedFinding } | { figure: ComparedFigure };

type Asked = {
  old: BuildState;
  trials: Trials;
  differences: readonly Differing[];
  catalogs: readonly ChangedPart[];
  isOtherHouse: boolean;
  findings: readonly ComparedFinding[];
  figures: readonly ComparedFigure[];
};

/** Finds what did each thing, by putting back every part of the change alone, then as few as do it together. */
export function* causesOf(asked: Asked): Steps<Causes> {
  const parts = partsOf(asked);
  const groups = new Map<string, { changes: readonly PutBack[]; of: Consequence[] }>();
  const lay = (consequence: Consequence, changes: readonly PutBack[]) => {
    const key = changes.map((part) => parts.indexOf(part)).join(' ');
    const group = groups.get(key) ?? { changes, of: [] };
    group.of.push(consequence);
    groups.set(key, group);
  };
  let isCut = false;
  for (const consequence of consequencesOf(asked)) {
    const alone: PutBack[] = [];
    for (const part of parts) {
      if (isCut || asked.trials.count >= MOST_TRIALS) break;
      if (isUndone(consequence, asked.trials.with([part]), asked.old)) alone.push(part);
      isCut = yield;
    }
    if (isCut) break;
    for (const part of alone) lay(consequence, [part]);
    if (alone.length > 0 || parts.length < 2) continue;
    const together = yield* fewest(consequence, parts, asked);
    if (together.length > 0) lay(consequence, together);
  }
  const busy = new Set([...groups.values()].flatMap(({ changes }) => changes));
  const causes = [...groups.values()].map(({ changes, of }) => ({
    changes,
    findings: of.flatMap((one) => ('finding' in one ? one.finding : [])),
    figures: of.flatMap((one) => ('figure' in one ? one.figure : [])),
  }));
  return {
    causes: causes.toSorted((one, other) => one.changes.length - other.changes.length),
    idle: isCut ? [] : parts.filter((part) => !busy.has(part)),
    isCut,
  };
}

/** Each changed field, or each section where there are too many; each changed part; and the house rules, where they are others. */
function partsOf({ differences, catalogs, isOtherHouse }: Asked): PutBack[] {
  const others: PutBack[] = [
    ...catalogs.map((catalog) => ({ catalog })),
    ...(isOtherHouse ? [{ house: true } as const] : []),
  ];
  if (differences.length <= MOST_ALONE) return [...differences.map((one) => ({ fields: [one] })), ...others];
  const sections = new Map<string, Differing[]>();
  for (const one of differences) {
    const section = JSON.stringify(one.place.slice(0, one.place[0] === 'stages' ? 2 : 1));
    sections.set(section, [...(sections.get(section) ?? []), one]);
  }
  return [...[...sections.values()].map((fields) => ({ fields })), ...others];
}

function consequencesOf({ findings, figures }: Asked): Consequence[] {
  return [...findings.map((finding) => ({ finding })), ...figures.map((figure) => ({ figure }))];
}

function isUndone(consequence: Consequence, state: BuildState, old: BuildState): boolean {
  if ('figure' in consequence) return state.shown(consequence.figure) === old.shown(consequence.figure);
  return consequence.finding.ids.every((id) => sayingOf(state, id) === sayingOf(old, id));
}

/** What is found under an identity, as far as it counts for better or worse. */
function sayingOf(state: BuildState, id: string): string {
  const found = state.found(id);
  return found ? `${found.rule} ${found.severity} ${found.excess?.toPrecision(3)}` : '';
}

/** The parts of a change that undo something only together: without any one of them it stays. */
function* fewest(consequence: Consequence, parts: readonly PutBack[], { old, trials }: Asked): Steps<PutBack[]> {
  const isUndoneBy = (kept: readonly PutBack[]) => isUndone(consequence, trials.with(kept), old);
  if (!isUndoneBy(parts)) return [];
  let left = [...parts];
  for (const part of parts) {
    if (trials.count >= MOST_TRIALS) return left;
    const without = left.filter((one) => one !== part);
    if (without.length > 0 && isUndoneBy(without)) left = without;
    if (yield) return left;
  }
  return left;
}
