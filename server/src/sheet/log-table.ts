import Papa from 'papaparse';
import { echo, quoted } from '../text/echo.ts';
import { type Dimension, dimensions, findUnit, type Unit } from '../units/units.ts';

/** Most characters, rows and columns of a log that is read; a longer one is to be cut to the drive that counts. */
const MOST_CHARACTERS = 8_000_000;
const MOST_ROWS = 200_000;
const MOST_COLUMNS = 500;
/** Most rows among which the headings are the first that is not empty. */
const MOST_LEADING = 50;

/** A column of a log as the sheet names it: its heading, with its unit behind `in` where the heading does not say it. */
export type NamedColumn = { heading: string; dimension: Dimension };

/** The numbers of the named columns in SI, a row each with its line of the file, the first is 1, and the units they stand in. */
export type LogTable<Name extends string> = {
  units: Partial<Record<Name, string>>;
  rows: readonly { line: number; values: Partial<Record<Name, number>> }[];
};

/** Why a log cannot be read, in one plain sentence, and the named column that is to blame, if one is. */
export type LogRefusal<Name extends string> = { refused: string; column?: Name };

/** Units that go without saying where neither heading nor sheet has one. */
const USUAL: Partial<Record<Dimension, string>> = {
  'rotational-speed': 'rpm',
  voltage: 'V',
  ratio: '%',
  'ratio-number': '',
  time: 'ms',
};

/**
 * Reads the named columns of a log: comma-separated values (RFC 4180), or with semicolons or tabs, under one line of
 * headings, which may be followed by a line of units. Cells that are no numbers are left out, as where a sensor dropped out.
 */
export function readLog<Name extends string>(
  text: string,
  columns: Readonly<Partial<Record<Name, NamedColumn>>>,
): LogTable<Name> | LogRefusal<Name> {
  if (text.length > MOST_CHARACTERS) return refusal('it is too long to be read; cut it to the drive that counts.');
  if (text.includes('\0')) return refusal('it is no text.');
  const head = columnsIn(rowsOf(text, MOST_LEADING), columns);
  if ('refused' in head) return head;
  const { found, first, delimiter } = head;
  const data = rowsOf(text, MOST_ROWS + 2, delimiter).data;
  if (data.length > MOST_ROWS + 1)
    return refusal(`it has more than ${MOST_ROWS} rows; cut it to the drive that counts.`);
  const decimal = delimiter === ',' ? '.' : ',.';
  const rows = data.slice(first + 1).flatMap((cells, index) => rowOf(cells, first + index + 2, found, decimal));
  if (rows.length === 0) return refusal('the columns that the sheet names have no numbers in it.');
  const units = Object.fromEntries(found.map(({ name, unit }) => [name, unit.name])) as Partial<Record<Name, string>>;
  return { rows, units };
}

/** The first rows of a text. */
function rowsOf(text: string, preview: number, delimiter?: string): Papa.ParseResult<string[]> {
  return Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), {
    ...(delimiter ? { delimiter } : { delimitersToGuess: [',', ';', '\t'] }),
    preview,
    skipEmptyLines: false,
  });
}

/** Where the named columns are, by the headings in the first rows, so that a wrong name costs nothing in a long log. */
function columnsIn<Name extends string>(
  { data, meta: { delimiter } }: Papa.ParseResult<string[]>,
  columns: Readonly<Partial<Record<Name, NamedColumn>>>,
): { found: Found<Name>[]; first: number; delimiter: string } | LogRefusal<Name> {
  const first = data.findIndex((row) => row.some((cell) => cell.trim() !== ''));
  const headings = data[first]?.map((cell) => cell.trim());
  if (!headings) return refusal('it is empty.');
  if (headings.length > MOST_COLUMNS) return refusal(`it has more than ${MOST_COLUMNS} columns.`);
  const found: Found<Name>[] = [];
  for (const [name, column] of Object.entries(columns) as [Name, NamedColumn][]) {
    const one = columnOf(name, column, headings, data[first + 1] ?? []);
    if ('refused' in one) return { ...one, column: name };
    found.push(one);
  }
  return { found, first, delimiter };
}

function refusal(reason: string): { refused: string } {
  return { refused: reason };
}

type Found<Name> = { name: Name; at: number; unit: Unit };

function columnOf<Name>(
  name: Name,
  { heading, dimension }: NamedColumn,
  headings: readonly string[],
  below: readonly string[],
): Found<Name> | { refused: string } {
  const whole = heading.trim();
  const [, bare, behind] = /^(.+)\s+in\s+(\S+)$/.exec(whole) ?? [];
  const isWhole = headings.includes(whole) || bare === undefined;
  const wanted = isWhole ? whole : bare;
  const same = headings.flatMap((one, index) => (one === wanted ? [index] : []));
  const [at] = same;
  if (at === undefined) return refusal(`it has no column ${quoted(wanted)}; ${headingsOf(headings)}.`);
  if (same.length > 1) return refusal(`it has ${same.length} columns ${quoted(wanted)}.`);
  const written = (isWhole ? undefined : behind) ?? unitIn(wanted) ?? unitBelow(below[at]) ?? USUAL[dimension];
  const unit = written === undefined ? undefined : findUnit(dimension, written.trim());
  if (unit) return { name, at, unit };
  const { title, units } = dimensions[dimension];
  const such = `write it behind the heading, such as ${quoted(`${wanted} in ${units[0]?.name ?? ''}`)}`;
  return written === undefined
    ? refusal(`the unit of ${quoted(wanted)} is not known; ${such}.`)
    : refusal(`${quoted(echo(written, 20))} is no unit of ${title}; ${such}.`);
}

const MOST_HEADINGS = 6;

function headingsOf(headings: readonly string[]): string {
  const named = headings.filter(Boolean);
  const some = named.slice(0, MOST_HEADINGS).map((one) => quoted(echo(one, 30)));
  const more = named.length > MOST_HEADINGS ? ' and more' : '';
  return `its headings are ${some.join(', ')}${more}`;
}

/** The unit that a heading ends with: `Fuel pressure (psi)`, `RPM [1/min]`. */
function unitIn(heading: string): string | undefined {
  return /[([]([^()[\]]{0,20})[)\]]\s*$/.exec(heading)?.[1];
}

/** The unit in a line of units below the headings. */
function unitBelow(cell: string | undefined): string | undefined {
  const text = cell?.trim().replace(/^[([](.*)[)\]]$/, '$1');
  return text && !/\d/.test(text) && text.length <= 20 ? text : undefined;
}

function rowOf<Name extends string>(
  cells: readonly string[],
  line: number,
  columns: readonly Found<Name>[],
  decimal: string,
): LogTable<Name>['rows'][number][] {
  const values: Partial<Record<Name, number>> = {};
  let count = 0;
  for (const { name, at, unit } of columns) {
    const value = numberOf(cells[at], decimal);
    if (value === undefined) continue;
    values[name] = value * unit.factor + (unit.offset ?? 0);
    count++;
  }
  return count > 0 ? [{ line, values }] : [];
}

/** A number with a point, or with a comma where the comma does not part the columns. */
function numberOf(cell: string | undefined, decimal: string): number | undefined {
  const text = cell?.trim() ?? '';
  if (text.length > 40 || !/^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d{1,3})?$/i.test(text)) return undefined;
  const value = Number(decimal.includes(',') ? text.replace(',', '.') : text);
  return Number.isFinite(value) ? value : undefined;
}
