import type { Checked } from '../checking/checked.ts';
import { assuming, type Build } from './build.ts';
import { steps } from './usual-values.ts';

const builds = new WeakMap<Checked, Build>();

/** A sheet with usual values where it says nothing, so that every main figure can be had; worked out once a check. */
export function completed(checked: Checked): Build {
  let build = builds.get(checked);
  if (!build) {
    const { sheet, plan, house } = checked;
    build = { values: sheet.values, plan, house, assumed: [], unread: sheet.unread };
    for (const step of steps) build = assuming(build, step(build));
    builds.set(checked, build);
  }
  return build;
}
