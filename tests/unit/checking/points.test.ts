import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { type Checked, checkText } from '../../../server/src/checking/checked.ts';
import { askedOf } from '../../../server/src/features/questions.ts';
import { pointsPage } from '../../../server/src/features/report/points.ts';
import { verdictOf } from '../../../server/src/features/verdict.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { type FieldPath, stepsOf } from '../../../server/src/sheet/path.ts';
import { isPoint } from '../../../server/src/sheet/points.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { fieldsUnder } from '../sheet/schema-fields.ts';

/** A sheet that answers every point its build has, and its build with other parts, for the points those have. */
const sample = readFileSync('samples/loom-wagon.build.yaml', 'utf8');
const OTHERWISE: Record<string, Record<string, unknown>> = {
  'a vacuum modulator': {
    transmission: {
      kind: 'automatic',
      'load-signal': 'vacuum-modulator',
      'modulator-port': 'manifold',
      adjusted: true,
      'stall-speed': '2000 rpm',
      'gear-signal': true,
    },
  },
  'a boat': { 'vehicle.marine': true, 'stack.flame-arrestor': true },
  'a crank sensor': { 'ignition.trigger': 'crank-sensor', 'ignition.cam-signal': true },
};

/** What a sheet with a blower has besides. */
const boosted = readFileSync('samples/millrace-stroker.build.yaml', 'utf8').replace(
  'boost: 6 psi\n',
  'boost: 6 psi\n    overboost-cut: 7 psi\n    lean-cut: true\n',
);

function otherwise(fields: Record<string, unknown>): string {
  const document = parseDocument(sample);
  for (const [field, value] of Object.entries(fields)) document.setIn(stepsOf(field as FieldPath), value);
  return document.toString({ lineWidth: 0 });
}

const texts: [name: string, text: string][] = [
  ['the sample', sample],
  ...Object.entries(OTHERWISE).map(([name, fields]): [string, string] => [name, otherwise(fields)]),
];

/** Every text that answers points. */
const answering: [name: string, text: string][] = [...texts, ['a blower', boosted]];

const check = (text: string): Checked => checkText(text, noHouse);
const findings = ({ findings }: Checked) => findings.map(({ rule, path }) => `${rule} ${path.join('.')}`);

/** The points of the schema that hold a value. */
const points = fieldsUnder(root)
  .filter(({ path, schema }) => isPoint(path as FieldPath) && schema.type !== 'object' && schema.absent !== 'none')
  .map(({ path }) => path)
  .filter((path) => !path.startsWith('stages.changes.'));

/** Where a text has a field: stages' own in any of them. */
function placesIn(text: string, field: string): (string | number)[][] {
  const steps = stepsOf(field as FieldPath);
  const document = parseDocument(text);
  if (steps[0] !== 'stages') return document.hasIn(steps) ? [[...steps]] : [];
  const { length } = document.toJS().stages as unknown[];
  return Array.from({ length }, (_, index) => ['stages', index, ...steps.slice(1)]).filter((path) =>
    document.hasIn(path),
  );
}

describe('the points of installation', () => {
  it('are there', () => {
    expect(points.length).toBeGreaterThan(100);
  });

  it.each(texts)('are all answered and in order in %s', (_, text) => {
    const checked = check(text);
    expect(checked.sheet.problems).toEqual([]);
    expect(findings(checked)).toEqual([]);
    expect(verdictOf(checked)).toMatchObject({ errors: 0, warnings: 0, open: 0, points: 0 });
  });

  it('are all in the report, each with its answer', () => {
    const [table] = pointsPage(check(sample).plan);
    const rows = table?.kind === 'table' ? table.rows : [];
    const answered = points.filter((field) => placesIn(sample, field).length > 0);
    expect(rows.length).toBe(answered.length);
    expect(rows).toContainEqual(['Line routing', 'Distance to the exhaust', '80 mm', 'as built']);
    expect(rows).toContainEqual(['Nitrous', 'Arming switch', 'yes', 'nitrous']);
  });

  it('of a blower are in order', () => {
    expect(findings(check(boosted))).toEqual([]);
  });

  it('are each answered in one of these sheets', () => {
    expect(points.filter((field) => !answering.some(([, text]) => placesIn(text, field).length > 0))).toEqual([]);
  });

  it.each(points)('%s is asked for, or missed by a rule, once it is taken out', (field) => {
    const [, text = ''] = answering.find(([, one]) => placesIn(one, field).length > 0) ?? [];
    const [place = []] = placesIn(text, field);
    const document = parseDocument(text);
    document.deleteIn(place);
    const without = check(document.toString({ lineWidth: 0 }));
    const asked = askedOf(without).map((question) => question.field as string);
    const section = field.slice(0, field.lastIndexOf('.'));
    const isSectionLeft = document.hasIn([...place.slice(0, -1)]);
    const isAsked = asked.some((one) => one === field || (!isSectionLeft && one.startsWith(`${section}.`)));
    expect(isAsked || findings(without).length > 0).toBe(true);
  });
});

describe('a sheet that answers no point', () => {
  const checked = check(readFileSync('samples/quarry-wagon.build.yaml', 'utf8'));
  const asked = askedOf(checked).map(({ field }) => field);

  it('is found as sound as before, and tells them apart from what decides parts', () => {
    expect(findings(checked)).toEqual([]);
    expect(verdictOf(checked).points).toBeGreaterThan(40);
  });

  it('is asked for them after every error and warning that waits for something else', () => {
    const waiting = checked.open.filter(({ severity }) => severity === 'error' || severity === 'warning');
    const others = waiting.flatMap(({ lacks }) => lacks).filter((field) => !isPoint(field) && asked.includes(field));
    const first = asked.findIndex(isPoint);
    expect(others.filter((field) => asked.indexOf(field) > first)).toEqual([]);
  });
});
