import { Service } from '../service.ts';
import { opened, reasonOf } from './check-file.ts';
import { shownPath } from './check-files.ts';
import { houseRoots } from './house-roots.ts';
import type { Io } from './io.ts';
import { sourcesOf } from './sources.ts';
import { ExitCode } from './verb.ts';

/** A sheet that is open in a service. */
export type OpenSheet = { path: string; uri: string; text: string; service: Service };

/**
 * What there is to say of every sheet that operands stand for, one after the other; what cannot be read is told and makes
 * the exit code one of misuse.
 */
export async function eachSheet<T>(
  operands: readonly string[],
  inputName: string | undefined,
  io: Io,
  visit: (sheet: OpenSheet) => T,
): Promise<{ visited: T[]; code: ExitCode }> {
  const { files, source, complaints } = await sourcesOf(operands, inputName, io);
  const service = new Service();
  service.workspace.roots = houseRoots(files, io.cwd);
  const visited: T[] = [];
  for (const file of files) {
    const path = shownPath(file, io.cwd);
    const found = await opened(file, service, source);
    if (found.kind !== 'text') complaints.push(`${path}: ${reasonOf(found)}`);
    else {
      const { uri, text } = found;
      if (service.workspace.get(uri)?.kind === 'sheet') visited.push(visit({ path, uri, text, service }));
      service.close(uri);
    }
  }
  for (const complaint of complaints) io.complain(complaint);
  return { visited, code: complaints.length > 0 ? ExitCode.misuse : ExitCode.clean };
}
