import { describe, expect, it } from 'vitest';
import { comparedIn } from '../../../server/src/analysis/compared.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { Service } from '../../../server/src/service.ts';
import { readLog } from '../../../server/src/sheet/log-table.ts';
import { logValues } from '../../../server/src/sheet/log-values.ts';
import { logsNamedIn } from '../../../server/src/workspace/logs.ts';

/** Ten rows of a pull: the most fuel at 5,400 rpm, one glitch of the pressure, a dip of the volts while cranking. */
const LOG = `Time,RPM,Fuel P (psi),Duty (%),Pump V,AFR
0.0,210,40.0,2,9.1,
0.5,900,58.2,6,13.2,14.7
1.0,2500,58.0,24,13.1,13.0
1.5,4000,57.1,48,12.9,12.8
2.0,5000,55.0,70,12.4,12.7
2.5,5300,54.2,79,12.2,12.6
3.0,5400,54.1,80,12.1,12.6
3.5,5400,99.9,79.5,12.2,12.7
4.0,5450,54.0,78.5,12.2,12.8
4.5,2000,58.1,20,13.0,14.0
`;

const SHEET = `format: 2
measured:
  - date: 2026-06-14
    log:
      file: logs/first drive.csv
      columns: { speed: RPM, rail-pressure: Fuel P (psi), duty: Duty (%), pump-voltage: Pump V, air-fuel-ratio: AFR }
`;

const columns = {
  speed: { heading: 'RPM', dimension: 'rotational-speed' },
  'rail-pressure': { heading: 'Fuel P (psi)', dimension: 'pressure' },
  duty: { heading: 'Duty (%)', dimension: 'ratio' },
  'pump-voltage': { heading: 'Pump V', dimension: 'voltage' },
} as const;

describe('a log', () => {
  it('comes down to the highest duty, the pressure at the most flow and the lowest volts of the running engine', () => {
    const table = readLog(LOG, columns);
    if ('refused' in table) throw new Error(table.refused);
    const values = logValues(table.rows);
    // 97 % of 80 % are 77.6 %: lines 7 to 10 of the file; in the middle of 54.2, 54.1, 99.9 and 54.0 psi stands 54.1.
    expect(values.duty).toEqual({ value: 0.8, lines: [8] });
    expect((values.speed?.value ?? 0) * 60).toBeCloseTo(5400, 9);
    expect(values['rail-pressure']?.lines).toEqual([7, 8, 9, 10]);
    expect((values['rail-pressure']?.value ?? 0) / 6894.757293).toBeCloseTo(54.1, 6);
    expect(values['pump-voltage']).toEqual({ value: 12.1, lines: [8] });
  });

  it('is read with semicolons and decimal commas, a line of units and quoted cells', () => {
    const text = 'RPM;"Fuel P";Duty\nrpm;bar;%\n5000;"3,75";70,5\n';
    const table = readLog(text, {
      speed: { heading: 'RPM', dimension: 'rotational-speed' },
      'rail-pressure': { heading: 'Fuel P', dimension: 'pressure' },
      duty: { heading: 'Duty', dimension: 'ratio' },
    });
    expect(table).toEqual({
      units: { speed: 'rpm', 'rail-pressure': 'bar', duty: '%' },
      rows: [{ line: 3, values: { speed: 5000 / 60, 'rail-pressure': 375000, duty: 0.705 } }],
    });
  });

  it.each([
    ['', /empty/],
    ['\0\0\0', /no text/],
    ['RPM,RPM\n1,2\n', /2 columns "RPM"/],
    ['Speed\n1\n', /no column "RPM"; its headings are "Speed"/],
    ['RPM\n\n-\n', /no numbers/],
    [`RPM\n${'1\n'.repeat(200_001)}`, /more than 200000 rows/],
    ['x'.repeat(8_000_001), /too long/],
    [`RPM,${'a,'.repeat(600)}\n`, /more than 500 columns/],
    ['RPM,"never closed\n'.repeat(50), /no numbers|no column/],
  ])('is refused in a plain sentence: %#', (text, reason) => {
    const read = readLog(text, { speed: { heading: 'RPM', dimension: 'rotational-speed' } });
    expect('refused' in read && read.refused).toMatch(reason);
  });

  it('asks for the unit of a pressure, and takes it behind the heading', () => {
    const named = (heading: string) => readLog('FP\n50\n', { p: { heading, dimension: 'pressure' } });
    expect(named('FP')).toEqual({
      column: 'p',
      refused: 'the unit of "FP" is not known; write it behind the heading, such as "FP in psi".',
    });
    expect(named('FP in psi')).toMatchObject({ units: { p: 'psi' } });
    expect(named('FP in furlong')).toEqual({
      column: 'p',
      refused: '"furlong" is no unit of pressure; write it behind the heading, such as "FP in psi".',
    });
  });
});

describe('a sheet that names a log', () => {
  it('has it wanted of the host, only from its own folder or below', () => {
    expect(logsNamedIn('file:///shop/a.build.yaml', SHEET)).toEqual(['file:///shop/logs/first%20drive.csv']);
    for (const name of ['../out.csv', '/etc/a.csv', 'c:/a.csv', 'http://example.com/a.csv', '\\\\host\\a.csv'])
      expect(logsNamedIn('file:///shop/a.build.yaml', SHEET.replace('logs/first drive.csv', name))).toEqual([]);
    expect(logsNamedIn('file:///shop/a.build.yaml', 'format: 2\n')).toEqual([]);
  });

  it.each([
    'file: "drive, first.csv"',
    "file: 'drive, first.csv' # by phone",
    '"file": drive.csv',
    'file: &log "drive, first.csv"',
    'file:\n        "drive, first.csv"',
  ])('is seen to name it in %j', (named) => {
    const sheet = SHEET.replace('file: logs/first drive.csv', named);
    expect(logsNamedIn('file:///shop/a.build.yaml', sheet)).toHaveLength(1);
  });

  it('is compared with what it came down to, and again when the log changes', () => {
    const service = new Service();
    const uri = 'file:///shop/a.build.yaml';
    service.workspace.put({ uri, kind: 'sheet', version: 1, text: SHEET });
    const [log = ''] = service.workspace.wanted().filter((one) => one.endsWith('.csv'));
    const voltsWith = (text: string) => {
      service.workspace.give(log, { kind: 'text', text }, service.workspace.doubts);
      const house = service.workspace.houseFor(uri).house;
      const [stage] = checkText(SHEET, house).plan;
      const found = stage && comparedIn(stage).find(({ about }) => about.field === 'pump-voltage');
      return [found?.read.text, found?.reading.logged?.lines['pump-voltage']];
    };
    expect(voltsWith(LOG)).toEqual(['12.1 V', 'line 8']);
    expect(voltsWith(LOG.replace('12.4', '11.9'))).toEqual(['11.9 V', 'line 6']);
    service.workspace.give(log, { kind: 'refused', reason: 'it is larger than 8 MB.' }, service.workspace.doubts);
    const refused = checkText(SHEET, service.workspace.houseFor(uri).house).findings.map(({ message }) => message);
    expect(refused).toContain('The log "logs/first drive.csv" is not read: it is larger than 8 MB.');
  });

  it('lets its own reading count before the log', () => {
    const house = { logs: { at: () => ({ kind: 'text', text: LOG }) as const } };
    const own = SHEET.replace('    log:', '    pump-voltage: 12.6 V\n    log:');
    const [stage] = checkText(own, house).plan;
    expect(stage && comparedIn(stage).find(({ about }) => about.field === 'pump-voltage')?.read.text).toBe('12.6 V');
  });
});
