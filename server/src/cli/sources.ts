import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { filesNow } from '../disk.ts';
import { textFile } from '../workspace/found-file.ts';
import type { Files } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import { find } from './find.ts';
import type { Io } from './io.ts';
import { Misuse } from './verb.ts';

/** The files a call is about, where they come from, and what could not be looked at. */
export type Sources = { files: string[]; source: Files; complaints: string[] };

/** What stands for the standard input among the paths. */
export const INPUT = '-';

/**
 * What the operands of a call stand for; `-` is the standard input, under the name it is given. Without operands it is the
 * working folder.
 * @throws Misuse where the standard input is to be read beside files
 */
export async function sourcesOf(operands: readonly string[], inputName: string | undefined, io: Io): Promise<Sources> {
  if (!operands.includes(INPUT))
    return { ...(await find(operands.length > 0 ? operands : ['.'], io.cwd)), source: filesNow };
  if (operands.length > 1) throw new Misuse('- stands alone: the standard input is not read beside files.');
  const file = resolve(io.cwd, inputName ?? 'stdin.build.yaml');
  const input: File = textFile(await io.readInput());
  const uri = pathToFileURL(file).href;
  const read: Files['read'] = async (wanted, most) => (wanted === uri ? input : filesNow.read(wanted, most));
  return { files: [file], source: { ...filesNow, read }, complaints: [] };
}
