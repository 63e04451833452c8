import type { Checked } from '../checking/checked.ts';
import { isOfPoints } from '../checking/finding.ts';
import { entryOf } from '../sheet/read.ts';
import { echo } from '../text/echo.ts';
import type { Range } from '../text/place.ts';

/** How many findings of each severity there are, and how many checks could not be made. */
export type Count = { errors: number; warnings: number; open: number };

/** What a sheet comes to, as a whole and stage by stage. Open checks are told: nothing found in them means nothing. */
export type Verdict = Count & {
  /** How many checks only wait for points of installation; they are not among the open ones. */
  points: number;
  stages: readonly (Count & { name: string })[];
};

export function verdictOf({ sheet, findings, open, plan }: Checked): Verdict {
  const problems = (wanted: string | undefined) => sheet.problems.filter(({ severity }) => severity === wanted).length;
  const count = (severity: string, stage?: number) =>
    findings.filter((one) => one.severity === severity && (stage === undefined || one.stages.includes(stage))).length;
  const waiting = (isApart: boolean, stage?: number) =>
    open.filter(
      (check) =>
        check.lacks.length > 0 &&
        isOfPoints(check) === isApart &&
        (stage === undefined || check.stages.includes(stage)),
    ).length;
  return {
    errors: count('error') + problems(undefined),
    warnings: count('warning') + problems('warning'),
    open: waiting(false),
    points: waiting(true),
    stages: plan.map(({ name, index }) => ({
      name,
      errors: count('error', index),
      warnings: count('warning', index),
      open: waiting(false, index),
    })),
  };
}

/** A count in words: what is wrong first, and what could not be checked. */
export function countText({ errors, warnings, open, points = 0 }: Count & { points?: number }): string {
  const some = (count: number, one: string) => (count === 1 ? `1 ${one}` : `${count} ${one}s`);
  const wrong = [...(errors ? [some(errors, 'error')] : []), ...(warnings ? [some(warnings, 'warning')] : [])];
  const waits = [
    ...(open ? [`${some(open, 'check')} open`] : []),
    ...(points ? [`${some(points, 'point')} of installation open`] : []),
  ];
  return [...(wrong.length > 0 ? wrong : ['nothing wrong found']), ...waits].join(', ');
}

/** What every stage comes to, in words, and where the stages are listed. */
export type StageVerdicts = { range: Range; text: string };

export function stageVerdictsOf(checked: Checked): StageVerdicts | undefined {
  const range = entryOf(checked.sheet, ['stages'])?.key;
  if (!range) return undefined;
  const stages = verdictOf(checked).stages.map((stage) => `${echo(stage.name, 30)}: ${countText(stage)}`);
  return { range, text: stages.join(' | ') };
}
