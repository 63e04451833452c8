import { createColors } from 'picocolors';
import type { Severity } from '../../checking/rule.ts';
import {
  type CheckedFile,
  type CheckResult,
  countsOf,
  type Excerpt,
  findingsOf,
  severities,
  type ToldAt,
} from '../check-result.ts';
import { harmless, widthOf, wrapped } from '../wrap.ts';
import type { Look } from './format.ts';

type Colors = ReturnType<typeof createColors>;

const INDENT = '  ';

/** Each finding under the line it is about, with its repairs; then how many there are. */
export function excerpt(result: CheckResult, look: Look): string {
  const colors = createColors(look.hasColor);
  const parts = result.files.flatMap((file) => [
    ...findingsOf(file).map((told) => findingText(told, file, look, colors)),
    ...acceptedTexts(file, look, colors),
  ]);
  return `${[...parts, summaryOf(result, colors)].join('\n\n')}\n`;
}

function findingText(told: ToldAt, { path }: CheckedFile, { columns }: Look, colors: Colors): string {
  const { severity, rule, start, message, related, repairs } = told;
  const number = String(start.line);
  const shown = fitted(told.excerpt, columns - number.length - 3);
  const gutter = ' '.repeat(number.length);
  const head = `${colorOf(severity, colors)(severity)} ${colors.bold(rule)} ${colors.dim(`${harmless(path)}:${start.line}:${start.column}`)}`;
  const before = ' '.repeat(widthOf(shown.line.slice(0, shown.from)));
  const mark = '^'.repeat(Math.max(1, widthOf(shown.line.slice(shown.from, shown.to))));
  return [
    head,
    colors.dim(`${number} | `) + shown.line,
    colors.dim(`${gutter} | `) + before + colorOf(severity, colors)(mark),
    indented(message, columns),
    ...related.map((other) =>
      indented(`see ${other.path}:${other.start.line}:${other.start.column}: ${other.message}`, columns),
    ),
    ...repairs.map((title) => indented(`repair: ${title}`, columns)),
  ].join('\n');
}

/** How much of a line is kept before what is meant, where not all of it fits. */
const BEFORE = 30;

/** As much of a line as fits, with what is meant in it. */
function fitted({ line, from, to }: Excerpt, columns: number): Excerpt {
  if (line.length <= columns) return { line, from, to };
  const start = from + 10 < columns ? 0 : from - BEFORE;
  const [head, tail] = [start > 0 ? '\u2026' : '', line.length - start > columns ? '\u2026' : ''];
  const kept = line.slice(start, start + columns - head.length - tail.length);
  const shift = head.length - start;
  return { line: head + kept + tail, from: from + shift, to: Math.min(to + shift, head.length + kept.length) };
}

function acceptedTexts(file: CheckedFile, { columns }: Look, colors: Colors): string[] {
  return file.told.flatMap(({ rule, start, accepted }) =>
    accepted === undefined
      ? []
      : [
          `${colors.dim('accepted')} ${rule} ${colors.dim(`${harmless(file.path)}:${start.line}:${start.column}`)}\n${indented(accepted, columns)}`,
        ],
  );
}

function indented(text: string, columns: number): string {
  const lines = wrapped(harmless(text), Math.max(20, columns - INDENT.length)).split('\n');
  return lines.map((line) => INDENT + line).join('\n');
}

function colorOf(severity: Severity, colors: Colors): (text: string) => string {
  return { error: colors.red, warning: colors.yellow, information: colors.blue, hint: colors.cyan }[severity];
}

/** How much was looked at and found, and that what could not be checked is not clean. */
function summaryOf(result: CheckResult, colors: Colors): string {
  const counts = countsOf(result);
  const told = severities.flatMap((severity) => (counts[severity] > 0 ? [counted(counts[severity], severity)] : []));
  const { length } = result.files;
  const files = length === 1 ? '1 file' : `${length} files`;
  const open = result.files.reduce((sum, file) => sum + file.open, 0);
  const points = result.files.reduce((sum, file) => sum + file.points, 0);
  const waits = [
    ...(open ? [`${open === 1 ? '1 check is' : `${open} checks are`} open for want of a field`] : []),
    ...(points ? [`${points === 1 ? '1 point' : `${points} points`} of installation not answered`] : []),
  ];
  const rest = waits.length > 0 ? ` ${waits.join(', ')}.` : '';
  return colors.bold(`${files}: ${told.length > 0 ? told.join(', ') : 'no findings'}.`) + rest;
}

function counted(count: number, severity: Severity): string {
  const isPlural = count !== 1 && severity !== 'information';
  return `${count} ${severity}${isPlural ? 's' : ''}`;
}
