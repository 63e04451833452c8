import { describe, expect, it } from 'vitest';
import { read } from '../sheet/marked.ts';

/** What is told of a field's text, and what is offered. */
function told(field: string, text: string) {
  const sheet = read(`format: 1\n${field.replace('?', text)}\n`);
  return sheet.problems.map(({ code, severity, message, fixes }) => ({
    code,
    severity,
    message,
    fixes: fixes.flatMap(({ edits, preferred }) => (preferred ? ['preferred'] : edits.map((edit) => edit.text))),
  }));
}

const ALTITUDE = 'site: { altitude: ? }';
const IDLE = 'engine: { idle-manifold-pressure: ? }';
const POINT = 'Is the point in this number a decimal point, or does it part thousands? Write';
const VACUUM = 'Is this a vacuum, counted down from the air, or an absolute pressure? Write';

describe('a value that can be read in two ways', () => {
  it.each([
    [ALTITUDE, '1.200 m', `${POINT} "1200 m" or "1.2 m".`, ['1200 m', '1.2 m']],
    [ALTITUDE, '1.234 m', `${POINT} "1234 m" or "1.2340 m".`, ['1234 m', '1.2340 m']],
    [ALTITUDE, '1.200..1.400 m', `${POINT} "1200..1400 m" or "1.2..1.4 m".`, ['1200..1400 m', '1.2..1.4 m']],
    [ALTITUDE, '1.200 +/- 0.1 m', `${POINT} "1200 +/- 0.1 m" or "1.2 +/- 0.1 m".`, ['1200 +/- 0.1 m', '1.2 +/- 0.1 m']],
    [IDLE, '18 inHg', `${VACUUM} "18 inHg vacuum" or "18 inHg abs".`, ['18 inHg vacuum', '18 inHg abs']],
    [
      IDLE,
      '18 +/- 2 inHg',
      `${VACUUM} "18 +/- 2 inHg vacuum" or "18 +/- 2 inHg abs".`,
      ['18 +/- 2 inHg vacuum', '18 +/- 2 inHg abs'],
    ],
    [
      IDLE,
      '18 inHg +/- 5 %',
      `${VACUUM} "18 inHg vacuum +/- 5 %" or "18 inHg abs +/- 5 %".`,
      ['18 inHg vacuum +/- 5 %', '18 inHg abs +/- 5 %'],
    ],
  ])('%s as %s is asked about', (field, text, message, fixes) => {
    expect(told(field, text)).toEqual([{ code: 'sheet/two-readings', severity: 'warning', message, fixes }]);
  });

  it('is read all the same', () => {
    const { values } = read(`format: 1\n${ALTITUDE.replace('?', '1.200 m')}\n`);
    expect(values.site?.altitude?.value).toBe(1.2);
  });

  it.each([
    [ALTITUDE, '1.2 m'],
    [ALTITUDE, '1.2340 m'],
    [ALTITUDE, '0.900 km'],
    [ALTITUDE, '1200 m'],
    [ALTITUDE, '1.200 km'],
    ['engine: { displacement: ? }', '4.900 L'],
    ['fuel-system: { feed: { length: ? } }', '5.500 m'],
    [IDLE, '18 inHg vacuum'],
    [IDLE, '18 inHg abs'],
    [IDLE, '45 kPa'],
    ['sensors: { manifold-pressure: { range: ? } }', '30 inHg'],
  ])('%s as %s is clear', (field, text) => {
    expect(told(field, text)).toEqual([]);
  });

  it('is mended where only one of them is possible', () => {
    expect(told('engine: { redline: ? }', '5.500 rpm')).toMatchObject([
      { code: 'sheet/out-of-range', severity: undefined, fixes: ['preferred'] },
    ]);
  });

  it('has no reading that is asked about again', () => {
    for (const text of ['1200 m', '1.2 m', '1.2340 m']) expect(told(ALTITUDE, text)).toEqual([]);
    for (const text of ['18 inHg vacuum', '18 inHg abs']) expect(told(IDLE, text)).toEqual([]);
  });
});
