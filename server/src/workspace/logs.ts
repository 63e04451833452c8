import { addressIn } from './address.ts';
import { homeOf } from './house-folders.ts';

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

/** A log as a text names it: in quotes, or up to what ends a plain value; its key in quotes or not, an anchor before it or not. */
const NAMED =
  /\bfile["']?:\s*(?:&\S+\s+)?(?:"([^"\n\r]+\.csv)"|'([^'\n\r]+\.csv)'|([^"'\n\r,{}#]+?\.csv)(?=[ \t]*(?:[,}#\r\n]|$)))/gi;

/**
 * The addresses of the logs that the text of a sheet may name, found by lines so that it costs nothing where there are none;
 * names that lead out of the folder of the sheet are none.
 */
export function logsNamedIn(uri: string, text: string): readonly string[] {
  if (!text.includes('measured') || !/\.csv/i.test(text)) return NONE;
  const folder = homeOf(uri);
  if (folder === undefined) return NONE;
  const names = [...text.matchAll(NAMED)].map(([, double, single, plain]) => double ?? single ?? plain ?? '');
  const inside = names.filter((name) => !/^[/\\]|\.\.|:/.test(name));
  return [...new Set(inside)].slice(0, MOST_LOGS).map((name) => addressBelow(folder, name));
}

/** Said of a log that a sheet names where `logsNamedIn` does not see it. */
export const NOT_LOOKED_FOR = `it is not looked for: write it as "file: drive.csv" on one line, at most ${MOST_LOGS} logs in a sheet.`;
