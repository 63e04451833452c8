import { Service } from '../service.ts';
import { opened, reasonOf } from './check-file.ts';
import { shownPath } from './check-files.ts';
import { houseRoots } from './house-roots.ts';
import type { Io } from './io.ts';
import { sourcesOf } from './sources.ts';
import { Misuse } from './verb.ts';

/**
 * The one sheet that the operands of a verb name, opened in a service of its own.
 * @throws Misuse where they name none, or more than one, or it cannot be read
 */
export async function oneSheet(
  verb: string,
  operands: readonly string[],
  io: Io,
): Promise<{ service: Service; uri: string }> {
  if (operands.length !== 1) throw new Misuse(`${verb} takes one sheet.`);
  const { files, source, complaints } = await sourcesOf(operands, 'stdin.build.yaml', io);
  const [file] = files;
  if (!file || files.length > 1) throw new Misuse(complaints[0] ?? `${verb} takes one sheet, not a folder of them.`);
  const service = new Service();
  service.workspace.roots = houseRoots(files, io.cwd);
  const found = await opened(file, service, source);
  if (found.kind !== 'text') throw new Misuse(`${shownPath(file, io.cwd)}: ${reasonOf(found)}`);
  if (service.workspace.get(found.uri)?.kind !== 'sheet')
    throw new Misuse(`${shownPath(file, io.cwd)}: this is no build sheet.`);
  return { service, uri: found.uri };
}
