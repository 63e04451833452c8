import type { Dirent, readdir } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';

/** A file of a state of a repository: the name of its content, and whether that is where a link leads. */
export type Blob = { name: string; isLink: boolean };

/** The files of a state of a repository, by their paths from the top of the work tree, which is a folder on disk. */
export class Tree {
  private readonly blobs: ReadonlyMap<string, Blob>;
  private folders: ReadonlyMap<string, Map<string, 'file' | 'folder'>> | undefined;

  /** @param list what `git ls-tree -r -z --full-tree` writes */
  constructor(
    list: string,
    private readonly top: string,
  ) {
    this.blobs = blobsIn(list);
  }

  /** Its regular files, absolute. */
  get files(): string[] {
    return [...this.blobs].flatMap(([path, { isLink }]) => (isLink ? [] : [join(this.top, path)]));
  }

  /** The file at an absolute path. */
  at(file: string): Blob | undefined {
    return this.blobs.get(this.pathOf(file));
  }

  /** Whether an absolute path is in the work tree, so that the state says what is there. */
  holds(path: string): boolean {
    const inside = this.pathOf(path);
    return inside !== '..' && !inside.startsWith('../') && !posix.isAbsolute(inside) && !/^[A-Za-z]:/.test(inside);
  }

  /** Lists a folder as `readdir` of `node:fs` does with types, or hands over to it outside the work tree. */
  reading(onDisk: typeof readdir): typeof readdir {
    const list = (path: string, options: object, done: (error: Error | null, entries: Dirent[]) => void): void => {
      if (!this.holds(path)) {
        onDisk(path, { ...options, withFileTypes: true }, done);
        return;
      }
      const entries = this.foldersByPath().get(this.pathOf(path)) ?? new Map<string, 'file' | 'folder'>();
      const found = [...entries].map(([name, kind]) => entryOf(name, kind));
      setImmediate(() => done(null, found));
    };
    return list as unknown as typeof readdir;
  }

  private pathOf(path: string): string {
    return relative(this.top, path).replaceAll(sep, '/');
  }

  private foldersByPath(): ReadonlyMap<string, Map<string, 'file' | 'folder'>> {
    if (this.folders) return this.folders;
    const folders = new Map<string, Map<string, 'file' | 'folder'>>();
    const enter = (path: string, kind: 'file' | 'folder') => {
      const parent = posix.dirname(path) === '.' ? '' : posix.dirname(path);
      const known = folders.get(parent);
      if (known) known.set(posix.basename(path), kind);
      else {
        folders.set(parent, new Map([[posix.basename(path), kind]]));
        if (parent !== '') enter(parent, 'folder');
      }
    };
    for (const [path, { isLink }] of this.blobs) if (!isLink) enter(path, 'file');
    this.folders = folders;
    return folders;
  }
}

function entryOf(name: string, kind: 'file' | 'folder'): Dirent {
  const no = () => false;
  const is = { isFile: () => kind === 'file', isDirectory: () => kind === 'folder', isSymbolicLink: no };
  const others = { isBlockDevice: no, isCharacterDevice: no, isFIFO: no, isSocket: no };
  return { name, parentPath: '', ...is, ...others } as unknown as Dirent;
}

function blobsIn(list: string): Map<string, Blob> {
  const entries = list.split('\0').flatMap((line) => {
    const [, mode, name, path] = /^(100\d{3}|120000) blob ([0-9a-f]+)\t(.*)$/s.exec(line) ?? [];
    return name && path !== undefined ? [[path, { name, isLink: mode === '120000' }] as const] : [];
  });
  return new Map(entries);
}
