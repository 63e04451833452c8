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

/** The main sections of which no stage of the plan knows anything. */
export function missingSections(plan: readonly Situation[]): string[] {
  return MAIN_SECTIONS.filter((section) => plan.every(({ values }) => isBlank(values[section])));
}

/** Whether nothing is said, as in a section whose fields are all left empty; looks no further than the first that says something. */
function isBlank(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return value === undefined || value === null;
  return Reflect.ownKeys(value).every((name) => isBlank((value as Record<string | symbol, unknown>)[name]));
}
