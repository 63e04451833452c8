import { addressIn } from './address.ts';

/** Most bytes of a log that is read from disk. */
export const MOST_LOG_BYTES = 8_000_000;

/** Most logs of one sheet. */
const MOST_LOGS = 20;

const NONE: readonly string[] = [];

/** Whether an address is that of a log. */
export function isLog(uri: string): boolean {
  return /\.csv$/i.test(uri);
}

/** The address of a file in a folder, or below it, by its name with slashes. */
export function addressBelow(folder: string, file: string): string {
  return file.split('/').reduce((at, name) => addressIn(at, name), folder);
}

/**
 * The addresses of the logs that the text of a sheet may name, found by lines so that it costs nothing where there are none;
 * names that lead out of the folder of the sheet are none.
 */
export function logsNamedIn(uri: string, text: string): readonly string[] {
  if (!text.includes('measured') || !/\.csv/i.test(text)) return NONE;
  const folder = uri.slice(0, uri.lastIndexOf('/'));
  const names = [...text.matchAll(/\bfile:[ \t]*(["']?)([^"'\n\r,{}#]+?\.csv)\1(?=[ \t]*(?:[,}#\r\n]|$))/gi)].map(
    ([, , name = '']) => name,
  );
  const inside = names.filter((name) => !/^[/\\]|\.\.|:/.test(name));
  return [...new Set(inside)].slice(0, MOST_LOGS).map((name) => addressBelow(folder, name));
}
