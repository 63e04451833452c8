import { createTwoFilesPatch } from 'diff';
import type { Service } from '../service.ts';
import { applyEdits } from '../text/apply-edits.ts';
import { inOneGo } from '../text/steps.ts';
import type { Files } from '../workspace/supply.ts';
import { opened } from './check-file.ts';
import { shownPath } from './check-files.ts';

/** A file before and after everything in it was mended that needs no choice. */
export type Mended = { file: string; before: string; after: string };

/** What files would be once everything is mended that needs no choice; those that stay as they are are left out. */
export async function mended(files: readonly string[], service: Service, source: Files): Promise<Mended[]> {
  const changed: Mended[] = [];
  for (const file of files) {
    const found = await opened(file, service, source);
    if (found.kind !== 'text') continue;
    const after = applyEdits(found.text, inOneGo(service.resolve(found.uri, { all: true })));
    service.close(found.uri);
    if (after !== found.text) changed.push({ file, before: found.text, after });
  }
  return changed;
}

/** The changes of files as a patch that `git apply` takes. */
export function patchOf(changes: readonly Mended[], cwd: string): string {
  return changes
    .map(({ file, before, after }) => {
      const path = shownPath(file, cwd);
      return createTwoFilesPatch(`a/${path}`, `b/${path}`, before, after, undefined, undefined, { context: 3 });
    })
    .map((patch) => patch.replace(/^=+\n/, ''))
    .join('');
}
