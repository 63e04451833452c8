import { FileSystemError, FileType, type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

type FoundFile = { bytes: Uint8Array } | { missing: 'absent' | 'irregular' | 'large' } | { code: string };
type FoundFolder = { entries: { name: string; isFolder: boolean }[] } | { code: string };

/** Gives the server files that it cannot look at by itself, such as those of a folder that is not on disk. */
export function giveFiles(client: BaseLanguageClient): void {
  client.onRequest('buildSheet/readFile', ({ uri, mostBytes }: { uri: string; mostBytes: number }) =>
    fileAt(client.protocol2CodeConverter.asUri(uri), mostBytes),
  );
  client.onRequest('buildSheet/readFolder', ({ uri }: { uri: string }) =>
    folderAt(client.protocol2CodeConverter.asUri(uri)),
  );
}

async function fileAt(uri: Uri, mostBytes: number): Promise<FoundFile> {
  try {
    const { type, size } = await workspace.fs.stat(uri);
    if ((type & FileType.File) === 0) return { missing: 'irregular' };
    if (size > mostBytes) return { missing: 'large' };
    return { bytes: await workspace.fs.readFile(uri) };
  } catch (error) {
    return isAbsence(error) ? { missing: 'absent' } : { code: codeOf(error) };
  }
}

/** What stands in a folder; links to folders are not followed. */
async function folderAt(uri: Uri): Promise<FoundFolder> {
  try {
    const entries = await workspace.fs.readDirectory(uri);
    return { entries: entries.map(([name, type]) => ({ name, isFolder: type === FileType.Directory })) };
  } catch (error) {
    return isAbsence(error) ? { entries: [] } : { code: codeOf(error) };
  }
}

function isAbsence(error: unknown): boolean {
  return error instanceof FileSystemError && ['FileNotFound', 'FileNotADirectory'].includes(error.code);
}

function codeOf(error: unknown): string {
  return error instanceof FileSystemError ? error.code : String(error);
}
