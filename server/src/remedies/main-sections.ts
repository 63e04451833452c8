import type { Situation } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';

/** What a conversion must be known by before its sheet is complete, in the order of a sheet. */
const MAIN_SECTIONS = [
  'site',
  'vehicle',
  'engine',
  'fuel',
  'stages',
  'throttle-body',
  'vacuum-reference',
  'ignition',
  'fuel-system',
  'electrical',
] as const satisfies (keyof BuildSheet)[];

/** The main sections no stage of the plan has. */
export function missingSections(plan: readonly Situation[]): string[] {
  return MAIN_SECTIONS.filter((section) => plan.every(({ values }) => values[section] === undefined));
}
