import { analyze } from '../analysis/analysis.ts';
import type { Checked } from '../checking/checked.ts';
import { assuming, type Build } from './build.ts';
import { steps } from './usual-values.ts';

const builds = new WeakMap<Checked, Build>();

/** A sheet as it is planned, without what was read on the car: a part that does it is no fault of a reading. */
function planned({ sheet, plan, house }: Checked): Build {
  const { measured, ...values } = sheet.values;
  const { unread } = sheet;
  if (!measured) return { values: sheet.values, plan, house, assumed: [], unread };
  return { values, plan: analyze(values, house, plan, unread), house, assumed: [], unread };
}

/** A sheet with usual values where it says nothing, so that every main figure can be had; worked out once a check. */
export function completed(checked: Checked): Build {
  let build = builds.get(checked);
  if (!build) {
    build = planned(checked);
    for (const step of steps) build = assuming(build, step(build));
    builds.set(checked, build);
  }
  return build;
}
