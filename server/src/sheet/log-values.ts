import type { LogTable } from './log-table.ts';

/** What a log can tell of a drive. */
export const LOGGED = [
  'speed',
  'rail-pressure',
  'pump-inlet-pressure',
  'duty',
  'pulse-width',
  'charging-voltage',
  'pump-voltage',
  'pump-current',
  'lambda',
  'air-fuel-ratio',
  'boost',
] as const;

export type LoggedField = (typeof LOGGED)[number];

/** A value that a log comes down to, SI, with the lines it was taken from, the first line of the file is 1. */
export type LogValue = { value: number; lines: readonly number[] };

type Rows = LogTable<LoggedField>['rows'];

/** What is taken at the most flow is the middle of the rows with at least so much of it. */
const NEAR_MOST = 0.97;
/** Below this speed, 1/s, the engine is being cranked or stands: 400 rpm. Common practice. */
const RUNNING = 400 / 60;

/** Read where the engine takes the most fuel. */
const AT_MOST_FLOW = ['rail-pressure', 'pump-inlet-pressure', 'lambda', 'air-fuel-ratio', 'pulse-width'] as const;
const HIGHEST = ['duty', 'pump-current', 'boost'] as const;
const LOWEST = ['charging-voltage', 'pump-voltage'] as const;

/**
 * What a log comes down to: the highest duty cycle with its speed, current and boost; pressures, mixture and pulse at the
 * most flow; the lowest volts of the running engine. Flow goes with the duty cycle, else with pulse times speed, else
 * with speed: fuel per injector is its open share of the time.
 */
export function logValues(rows: Rows): Partial<Record<LoggedField, LogValue>> {
  const running = rows.filter(({ values: { speed } }) => speed === undefined || speed >= RUNNING);
  const most = atMostFlow(running);
  const found: Partial<Record<LoggedField, LogValue>> = {};
  for (const field of AT_MOST_FLOW) set(found, field, middleOf(most, field));
  for (const field of HIGHEST) set(found, field, extremeOf(running, field, 1));
  for (const field of LOWEST) set(found, field, extremeOf(running, field, -1));
  const at = found.duty?.lines[0] ?? found['pulse-width']?.lines[0];
  const speed = rows.find(({ line }) => line === at)?.values.speed;
  if (at !== undefined && speed !== undefined) found.speed = { value: speed, lines: [at] };
  return found;
}

function set(found: Partial<Record<LoggedField, LogValue>>, field: LoggedField, value: LogValue | undefined): void {
  if (value) found[field] = value;
}

function flowOf({ duty, speed, 'pulse-width': pulse }: Rows[number]['values']): number | undefined {
  return duty ?? (pulse !== undefined && speed !== undefined ? pulse * speed : undefined) ?? speed;
}

function atMostFlow(rows: Rows): Rows {
  const flows = rows.flatMap((row) => flowOf(row.values) ?? []);
  const most = flows.reduce((one, other) => Math.max(one, other), 0);
  return most > 0 ? rows.filter(({ values }) => (flowOf(values) ?? 0) >= NEAR_MOST * most) : [];
}

/** The value in the middle of those of a field, which one that is off does not move. */
function middleOf(rows: Rows, field: LoggedField): LogValue | undefined {
  const all = rows.flatMap(({ line, values }) => (values[field] === undefined ? [] : [{ line, value: values[field] }]));
  const sorted = all.toSorted((one, other) => one.value - other.value);
  const middle = sorted[Math.floor((sorted.length - 1) / 2)];
  return middle && { value: middle.value, lines: all.map(({ line }) => line) };
}

function extremeOf(rows: Rows, field: LoggedField, side: 1 | -1): LogValue | undefined {
  let best: { value: number; line: number } | undefined;
  for (const { line, values } of rows) {
    const value = values[field];
    if (value !== undefined && (!best || side * value > side * best.value)) best = { value, line };
  }
  return best && { value: best.value, lines: [best.line] };
}

/** Lines as a text: `412 to 418`, `3, 9 and 120`. */
export function lineText(lines: readonly number[]): string {
  const [first] = lines;
  const last = lines.at(-1);
  if (first === undefined || last === undefined) return '';
  if (lines.length === 1) return `line ${first}`;
  if (last - first === lines.length - 1) return `lines ${first} to ${last}`;
  return lines.length <= 4
    ? `lines ${lines.slice(0, -1).join(', ')} and ${last}`
    : `${lines.length} lines from ${first} to ${last}`;
}
