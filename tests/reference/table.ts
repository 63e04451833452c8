import { allowedDifference, type Check, firstSetIds, passes } from './check.ts';

/** Names of the sections of the engineering notes. */
export const sections: Readonly<Record<number, string>> = {
  1: 'Fuels',
  2: 'Air and engine',
  3: 'Fuel demand',
  4: 'Injectors',
  5: 'Pump and pressure',
  6: 'Lines',
  7: 'Suction side',
  8: 'Electrical',
  9: 'Throttle body and stack',
  10: 'Boost',
  11: 'Nitrous',
  12: 'Ignition',
  13: 'Quantities and tolerances',
  14: 'The claim, the weather and the day',
  15: 'Fuel that boils',
  16: 'Knock',
  17: 'Nitrous and chemistry',
  18: 'Vehicle wire, cranking and coils',
  19: 'Sizes in series',
  20: 'Usual values',
  21: 'Starting settings',
  22: 'Losses on the safe side',
};

/** How many checks passed by section and topic, as lines of text. */
export function summary(checks: readonly Check[], passed: ReadonlySet<string>): string {
  const rows = new Map<string, { passed: number; all: number }>();
  for (const check of checks) {
    const key = `${String(check.section).padStart(2)} ${sections[check.section] ?? '?'} / ${check.topic}`;
    const row = rows.get(key) ?? { passed: 0, all: 0 };
    row.all += 1;
    if (passed.has(check.id)) row.passed += 1;
    rows.set(key, row);
  }
  const width = Math.max(0, ...[...rows.keys()].map((key) => key.length));
  const lines = [...rows].map(([key, row]) => `  ${key.padEnd(width)}  ${row.passed} of ${row.all}`);
  const known = new Set(checks.map((check) => check.id));
  const unused = firstSetIds.filter((id) => !known.has(id));
  if (unused.length > 0) lines.push(`  rows of the first set not in use: ${unused.join(' ')}`);
  return [`Outside checks passed: ${passed.size} of ${checks.length}`, ...lines].join('\n');
}

/** The page that lists every check beside the figure of ours. */
export function page(checks: readonly Check[]): string {
  const parts = [
    '# Outside checks',
    '',
    'Every row compares a figure of this tool with a value from outside the project. The page is generated from the',
    'checks in `tests/reference/` by `scripts/reference-table.ts`; a test holds it to them.',
    '',
    'A row whose expected value is 0 and whose text begins with "Largest" is the worst case of a whole grid.',
    '',
  ];
  for (const section of [...new Set(checks.map((check) => check.section))]) {
    const rows = checks.filter((check) => check.section === section);
    parts.push(`## ${section}. ${sections[section] ?? ''}`, '');
    parts.push('| check | what | expected | ours | tolerance | source |', '| --- | --- | --- | --- | --- | --- |');
    for (const check of rows) parts.push(tableRow(check));
    parts.push('');
  }
  return parts.join('\n');
}

function tableRow(check: Check): string {
  const got = check.got();
  const cells = [
    check.id,
    check.what,
    `${figure(check.expected)} ${check.unit}`,
    `${ours(check, got)}${passes(check, got) ? '' : ' **differs**'}`,
    tolerance(check),
    check.source,
  ];
  return `| ${cells.map(cell).join(' | ')} |`;
}

/** Rounding noise far under the tolerance is shown as 0, so that the page does not depend on the machine. */
function ours(check: Check, got: number): string {
  return check.expected === 0 && Math.abs(got) < allowedDifference(check)
    ? `under ${figure(allowedDifference(check))}`
    : figure(got);
}

function tolerance(check: Check): string {
  const { relative, absolute } = check.tolerance;
  if (absolute !== undefined) return `${figure(absolute)} ${check.unit}`;
  return relative === 0 ? 'exact' : `${figure((relative ?? 0) * 100)} %`;
}

function figure(value: number): string {
  return String(Number(value.toPrecision(6)));
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('<', '&lt;').replaceAll(/\s+/g, ' ');
}
