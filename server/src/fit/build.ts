import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { FigureNode } from '../analysis/node.ts';
import type { Assumption } from '../analysis/source.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { changedValues } from '../sheet/changed.ts';
import type { NewValue } from '../sheet/edit.ts';
import type { House } from '../sheet/house.ts';
import { type FieldPath, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import { mayBeUnread } from '../sheet/unread.ts';

/** A value that stands in for one the sheet does not give. */
export type Assumed = Assumption & { value: NewValue };

/** A sheet with its stages computed, and what in it is assumed. */
export type Build = {
  values: Partial<BuildSheet>;
  plan: readonly StageAnalysis[];
  house: House;
  assumed: readonly Assumed[];
  unread: readonly Path[];
};

/** What the sheet or an assumption gives for a field, or nothing. */
export function given(build: Build, field: FieldPath): unknown {
  return valueAt(build.values, stepsOf(field));
}

/** The build with values assumed; where the sheet gives one, or may give it in a part that could not be read, it stays. */
export function assuming(build: Build, assumed: readonly Assumed[]): Build {
  const missing = assumed.filter(({ place }) => isMissing(build, place));
  const values = changedValues(
    build.values,
    missing.map(({ place, value }) => ({ set: place, to: value })),
  );
  if (missing.length === 0 || !values) return build;
  const all = [...build.assumed, ...missing];
  const plan = analyze(values, build.house, build.plan, build.unread, all);
  return { ...build, values, assumed: all, plan };
}

function isMissing({ values, unread }: Build, place: Path): boolean {
  return valueAt(values, place) === undefined && !mayBeUnread(values, unread, place);
}

/** The highest value of a figure over the stages, or nothing where no stage has it. */
export function highest(build: Build, figure: FigureNode): number | undefined {
  const found = build.plan.flatMap((stage) => stage.estimate(figure)?.value ?? []);
  return found.length ? Math.max(...found) : undefined;
}
