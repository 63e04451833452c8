import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { filesNow } from '../disk.ts';
import { Service } from '../service.ts';
import { MOST_SHEET_BYTES } from '../workspace/kind.ts';
import { open, reasonOf } from './check-file.ts';
import { houseRoots } from './house-roots.ts';
import { Misuse } from './verb.ts';

/** A text that git hands over in a file of its own, opened under the path it has in the work tree. */
export type Handed = { service: Service; uri: string; text: string };

/**
 * Opens what git hands over: in place of a path a temporary file, or nothing where there is none on this side. House rules
 * are those of the path as they stand in the work tree, on both sides of a difference.
 * @throws Misuse where the file cannot be read
 */
export async function handedOver(file: string, path: string, cwd: string): Promise<Handed | undefined> {
  if (file === '/dev/null' || file === 'nul') return undefined;
  const found = await filesNow.read(pathToFileURL(resolve(cwd, file)).href, MOST_SHEET_BYTES);
  if (found.kind !== 'text') throw new Misuse(`${path}: ${reasonOf(found)}`);
  const service = new Service();
  const named = join(cwd, path);
  service.workspace.roots = houseRoots([named], cwd);
  const { href: uri } = pathToFileURL(named);
  await open(uri, found.text, service, filesNow);
  return { service, uri, text: found.text };
}
