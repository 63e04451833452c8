import { Service } from '../service.ts';
import { checkFiles } from './check-files.ts';
import type { CheckResult, ToldAt } from './check-result.ts';
import { stateAt } from './git.ts';

/**
 * A result without what was already so in a state of the repository: a finding is the same by rule, field and stage,
 * wherever it stands. House rules and catalogs are taken as they were then.
 * @throws Misuse where there is no such state
 */
export async function since(
  ref: string,
  result: CheckResult,
  files: readonly string[],
  roots: readonly string[],
  cwd: string,
): Promise<CheckResult> {
  const state = await stateAt(ref, cwd);
  const service = new Service();
  service.workspace.roots = roots;
  try {
    const before = await checkFiles(files, { service, source: state, cwd, repairs: false });
    const known = new Map(before.files.map(({ path, told }) => [path, told]));
    return {
      ...result,
      files: result.files.map((file) => ({ ...file, told: newIn(file.told, known.get(file.path) ?? []) })),
    };
  } finally {
    state.close();
  }
}

/** What is told now and was not before; of several of one identity as many as there are more. */
function newIn(now: readonly ToldAt[], before: readonly ToldAt[]): ToldAt[] {
  const left = new Map<string, number>();
  for (const one of before.flatMap(keysOf)) left.set(one, (left.get(one) ?? 0) + 1);
  return now.filter((told) => {
    let isNew = false;
    for (const one of keysOf(told)) {
      const count = left.get(one) ?? 0;
      if (count === 0) isNew = true;
      else left.set(one, count - 1);
    }
    return isNew;
  });
}

/** What a finding is known by; one that is accepted is another than one that is not. */
function keysOf({ identities, accepted }: ToldAt): string[] {
  return identities.map((identity) => (accepted === undefined ? identity : `accepted ${identity}`));
}
