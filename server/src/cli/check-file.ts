import { posix } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { isOfPoints } from '../checking/finding.ts';
import type { Told } from '../features/told.ts';
import type { Service } from '../service.ts';
import { endOfLine, type Position, positionsIn, startOfLine } from '../text/lines.ts';
import type { Range } from '../text/place.ts';
import { kindOf, MOST_SHEET_BYTES } from '../workspace/kind.ts';
import { type Files, supply } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import type { CheckedFile, Complaint, Excerpt, ToldAt } from './check-result.ts';
import { harmless } from './wrap.ts';

/** The check of one file: what there is to tell of it, what keeps the check from being whole, and faults of our own. */
export type FileResult = { file?: CheckedFile; complaints: readonly Complaint[]; faults: readonly Complaint[] };

/** How much of a long line is shown before and after what is meant. */
const BEFORE = 60;
const AFTER = 140;

/** Opens a file in the service, with all that holds for it; whoever opens it closes it. */
export async function opened(file: string, service: Service, files: Files): Promise<File & { uri: string }> {
  const uri = pathToFileURL(file).href;
  const found = await files.read(uri, MOST_SHEET_BYTES);
  if (found.kind !== 'text') return { ...found, uri };
  await open(uri, found.text, service, files);
  return { ...found, uri };
}

/** Opens a text in the service, with all that holds for it. */
export async function open(uri: string, text: string, service: Service, files: Files): Promise<void> {
  service.workspace.put({ uri, kind: kindOf(uri, 'build-sheet') ?? 'sheet', version: 1, text });
  await supplied(service, files);
}

/** Gives a service what its texts stand on, and tells it the day. */
export async function supplied({ workspace }: Service, files: Files): Promise<void> {
  workspace.today = new Date().toISOString().slice(0, 10);
  await supply(workspace, files);
}

/** Why a file is not there as a text. */
export function reasonOf(file: Exclude<File, { kind: 'text' }>): string {
  return file.kind === 'absent' ? 'there is no such file.' : file.reason;
}

/**
 * The check of a text that is open in a service. Its paths are from the folder of the text, its own is empty, so that it is
 * the same wherever the same texts stand.
 */
export function checked(uri: string, text: string, service: Service, repairs: boolean): FileResult {
  const all = service.told(uri, { repairs });
  const positionOf = positionsIn(text);
  const texts: Texts = {
    pathOf: (other) => (other === uri ? '' : pathBetween(uri, other)),
    positionsOf: (other) => (other === uri ? positionOf : positionsIn(service.workspace.textAt(other) ?? '')),
  };
  const unmade = service.openChecks(uri);
  const points = unmade.filter(isOfPoints).length;
  const faulty = service.houseFaults(uri).map(({ at, reason }) => [texts.pathOf(at.uri), reason] as const);
  if (service.workspace.get(uri)?.kind === 'house' && all[0]) faulty.push(['', all[0].message]);
  return {
    file: {
      path: '',
      told: all.map((one) => placed(one, uri, text, texts)),
      open: unmade.length - points,
      points,
    },
    complaints: faulty.map(([path, reason]) => ({
      path,
      message: `these house rules do not hold, or not all of them: ${reason}`,
    })),
    faults: service.faults(uri).map(({ where, error }) => ({ path: '', message: `${where}: ${traceOf(error)}` })),
  };
}

/** The way from the folder of one file to another, with slashes. */
export function pathBetween(uri: string, other: string): string {
  return posix.relative(posix.dirname(new URL(uri).pathname), new URL(other).pathname);
}

/** A check with its paths as they are shown; `shown` gives that of a path from the file's folder. */
export function located({ file, complaints, faults }: FileResult, shown: (path: string) => string): FileResult {
  const at = ({ path = '', message }: Complaint): Complaint => ({ path: shown(path), message });
  return {
    ...(file && {
      file: {
        ...file,
        path: shown(file.path),
        told: file.told.map((one) =>
          one.related.length === 0
            ? one
            : { ...one, related: one.related.map((other) => ({ ...other, path: shown(other.path) })) },
        ),
      },
    }),
    complaints: complaints.map(at),
    faults: faults.map(at),
  };
}

/** A path from the folder of a file as one from the top; an empty one is the file itself. */
export function absolute(path: string, file: string): string {
  return path === '' ? file : fileURLToPath(new URL(path, pathToFileURL(file)));
}

/** What the texts of one check are called, and where offsets in them are. */
type Texts = {
  pathOf: (uri: string) => string;
  positionsOf: (uri: string) => (offset: number) => Position;
};

function placed(told: Told, uri: string, text: string, { pathOf, positionsOf }: Texts): ToldAt {
  const positionOf = positionsOf(uri);
  const { code, found, severity, message, range, related, field, stages, identity, identities, repairs, accepted } =
    told;
  return {
    rule: code,
    found,
    severity,
    message,
    field,
    stages,
    identity,
    identities,
    start: positionOf(range.start),
    end: positionOf(range.end),
    excerpt: excerptOf(text, range),
    related: related.map((other) => ({
      path: pathOf(other.place.uri),
      start: positionsOf(other.place.uri)(other.place.range.start),
      message: other.message,
    })),
    repairs,
    ...(accepted !== undefined && { accepted }),
  };
}

/** The line of a range, cut where it is longer than can be shown. */
function excerptOf(text: string, { start, end }: Range): Excerpt {
  const lineStart = startOfLine(text, start);
  const lineEnd = endOfLine(text, start);
  const from = start - lineStart > BEFORE + AFTER ? start - BEFORE : lineStart;
  const to = Math.min(lineEnd, Math.max(start, from) + AFTER);
  const [head, tail] = [from > lineStart ? '\u2026' : '', to < lineEnd ? '\u2026' : ''];
  const shift = head.length - from;
  return {
    line: head + harmless(text.slice(from, to)) + tail,
    from: start + shift,
    to: Math.max(start + 1, Math.min(end, to)) + shift,
  };
}

function traceOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
