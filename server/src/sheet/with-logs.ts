import type { BuildSheet } from '../generated/build-sheet.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import { type LogRefusal, type LogTable, type NamedColumn, readLog } from './log-table.ts';
import { LOGGED, type LoggedField, lineText, logValues } from './log-values.ts';
import { fieldSchema } from './path.ts';
import type { Sheet } from './read.ts';

/** A log as the host found it: its text, nothing there, or refused for a reason. */
export type LogFile = { kind: 'text'; text: string } | { kind: 'absent' } | { kind: 'refused'; reason: string };

/** The logs beside a sheet by the names it gives them; nothing for one that was not looked for yet. */
export type Logs = { at(file: string): LogFile | undefined };

type Reading = NonNullable<BuildSheet['measured']>[number];

/** What a log gave to a reading: the fields it filled with the lines they come from, or why it cannot be read, by which column. */
export type Logged = { lines: Partial<Record<LoggedField, string>>; refused?: string; column?: LoggedField };

export type LoggedReading = Reading & { logged?: Logged };

const NOTHING: LogFile = { kind: 'absent' };

type Known = { files: readonly (LogFile | undefined)[]; merged: readonly Reading[] };
const known = new WeakMap<object, Known>();

/** A sheet whose readings also hold what their logs come down to; what the sheet itself says counts before it. */
export function withLogs(sheet: Sheet, logs: Logs | undefined): Sheet {
  const { measured } = sheet.values;
  if (!Array.isArray(measured) || !measured.some((one) => one?.log)) return sheet;
  const files = measured.map((one) => (one?.log?.file ? (logs ? logs.at(one.log.file) : NOTHING) : undefined));
  const before = known.get(measured);
  const isSame = before?.files.every((file, index) => file === files[index]);
  const merged = isSame ? before?.merged : measured.map((one, index) => filled(one, files[index]));
  known.set(measured, { files, merged: merged as readonly Reading[] });
  return { ...sheet, values: { ...sheet.values, measured: merged as Reading[] } };
}

function filled(reading: Reading, file: LogFile | undefined): LoggedReading {
  if (!reading?.log || !file) return reading;
  const refused = (reason: string, column?: LoggedField): LoggedReading => ({
    ...reading,
    logged: { lines: {}, refused: reason, ...(column && { column }) },
  });
  if (file.kind === 'absent') return refused('there is no such file beside the sheet.');
  if (file.kind === 'refused') return refused(file.reason);
  const columns = columnsOf(reading.log.columns);
  const found = comeDownTo(file, columns);
  if ('refused' in found) return refused(found.refused, found.column);
  const { values, units } = found;
  const added: Record<string, Quantity> = {};
  const lines: Logged['lines'] = {};
  for (const field of LOGGED) {
    const found = values[field];
    if (!found || reading[field] !== undefined) continue;
    added[field] = quantityOf(found.value, (columns[field] as NamedColumn).dimension, units[field] ?? '');
    lines[field] = lineText(found.lines);
  }
  return { ...reading, ...added, logged: { lines } };
}

type Columns = Partial<Record<LoggedField, NamedColumn>>;
type Summary = Pick<LogTable<LoggedField>, 'units'> & { values: ReturnType<typeof logValues> };
type Read = { columns: string; found: Summary | LogRefusal<LoggedField> };
const read = new WeakMap<LogFile, Read>();

/** What a log comes down to by its columns; read once while neither changes. */
function comeDownTo(file: LogFile & { kind: 'text' }, columns: Columns): Read['found'] {
  const name = JSON.stringify(columns);
  const before = read.get(file);
  if (before?.columns === name) return before.found;
  const table = readLog(file.text, columns);
  const found = 'refused' in table ? table : { units: table.units, values: logValues(table.rows) };
  read.set(file, { columns: name, found });
  return found;
}

function columnsOf(named: NonNullable<Reading['log']>['columns'] = {}): Columns {
  return Object.fromEntries(
    LOGGED.flatMap((field) => {
      const heading = named[field];
      const dimension = fieldSchema(`measured.${field}`)?.dimension;
      return heading && dimension ? [[field, { heading, dimension }]] : [];
    }),
  );
}

function quantityOf(value: number, dimension: Dimension, unit: string): Quantity {
  return { value, low: value, high: value, dimension, unit, text: formatIn(value, dimension, unit) };
}
