import { addressIn, sameFile } from './address.ts';
import { kindOf } from './kind.ts';

/** What stands in a folder. */
export type Entry = { name: string; isFolder: boolean };

/** Looks into a folder by its address; never throws, and takes down what cannot be looked at. */
export type Look = (folder: string, complaints: string[]) => Promise<readonly Entry[]>;

/** Folders that hold nothing of ours, however much is in them. */
const IGNORED: ReadonlySet<string> = new Set(['node_modules', '.git']);

/** So many folders are looked into, and so many files taken, at most. */
const MOST_FOLDERS = 50_000;
const MOST_FILES = 20_000;

/**
 * The addresses of our files in some folders and below, each once and in order of their names, and what could not be looked
 * at.
 */
export async function filesBelow(
  folders: readonly string[],
  look: Look,
): Promise<{ uris: string[]; complaints: string[] }> {
  const found = new Map<string, string>();
  const complaints: string[] = [];
  const left = folders.toReversed();
  for (let looked = 0; left.length > 0; looked++) {
    if (looked >= MOST_FOLDERS || found.size >= MOST_FILES) {
      complaints.push(`there are more than ${MOST_FOLDERS} folders or ${MOST_FILES} files; the rest is not looked at.`);
      break;
    }
    const folder = left.pop() as string;
    for (const { name, isFolder } of await look(folder, complaints)) {
      const uri = addressIn(folder, name);
      if (!isFolder) {
        if (kindOf(uri, '') && !found.has(sameFile(uri))) found.set(sameFile(uri), uri);
      } else if (!IGNORED.has(name)) left.push(uri);
    }
  }
  return { uris: [...found.values()].toSorted(), complaints };
}
