import type { Checked } from '../checking/checked.ts';
import { assuming, type Build } from './build.ts';
import { steps } from './usual-values.ts';

/** A sheet with usual values where it says nothing, so that every main figure can be had. */
export function completed({ sheet, plan, house }: Pick<Checked, 'sheet' | 'plan' | 'house'>): Build {
  let build: Build = { values: sheet.values, plan, house, assumed: [], unread: sheet.unread };
  for (const step of steps) build = assuming(build, step(build));
  return build;
}
