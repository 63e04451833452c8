import { type CheckResult, findingsOf, severities, type ToldAt } from '../check-result.ts';

/** Of each kind so many annotations are shown of one step; what comes after is dropped without a word. */
const MOST_OF_A_KIND = 10;

const kinds = { error: 'error', warning: 'warning', information: 'notice', hint: 'notice' } as const;

/** Workflow commands that annotate a pull request, errors first, and a last one that says how many there was no room for. */
export function github({ files, complaints }: CheckResult): string {
  const all = files.flatMap((file) => findingsOf(file).map((told) => ({ told, path: file.path })));
  const sorted = severities.flatMap((severity) => all.filter(({ told }) => told.severity === severity));
  const kept: string[] = complaints.map(
    ({ path, message }) => `::error${path ? ` file=${property(path)}` : ''}::${text(message)}`,
  );
  const count = { error: kept.length, warning: 0, notice: 0 };
  let dropped = 0;
  for (const { told, path } of sorted) {
    const kind = kinds[told.severity];
    // One notice is kept for the count of those that are dropped.
    if (count[kind] < MOST_OF_A_KIND - (kind === 'notice' ? 1 : 0)) {
      count[kind]++;
      kept.push(annotation(kind, told, path));
    } else dropped++;
  }
  const rest =
    dropped > 0
      ? [
          `::notice::${dropped} more findings have no room among the annotations; the log of a check in another format has them all.`,
        ]
      : [];
  return [...kept, ...rest].map((line) => `${line}\n`).join('');
}

function annotation(kind: string, { start, end, rule, message }: ToldAt, path: string): string {
  const properties = {
    file: path,
    line: start.line,
    col: start.column,
    endLine: end.line,
    endColumn: end.column,
    title: rule,
  };
  const list = Object.entries(properties).map(([name, value]) => `${name}=${property(String(value))}`);
  return `::${kind} ${list.join(',')}::${text(message)}`;
}

/** The message of a workflow command, as the runner's own toolkit escapes it. */
function text(message: string): string {
  return message.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(value: string): string {
  return text(value).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
