import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { StageAnalysis } from '../../../server/src/analysis/analysis.ts';
import { figures as allFigures } from '../../../server/src/analysis/figures.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { schemaAt } from '../../../server/src/sheet/schema.ts';
import { randomSheet } from './random-sheet.ts';
import { absentAt, samples, stagesOf } from './sheets.ts';

/** What is wrong with the figures of a stage, whatever the sheet. */
function wrong(analysis: StageAnalysis): string[] {
  const { figures, sheet } = analysis;
  const { values, stage } = sheet;
  const found: string[] = [];
  for (const [id, { value, low = value, high = value, inputs, source, formula, home }] of figures) {
    if (![value, low, high].every(Number.isFinite)) found.push(`${id} is ${low}, ${value}, ${high}`);
    if (!(low <= value && value <= high)) found.push(`${id}: ${value} is outside ${low} to ${high}`);
    if (!source || !formula) found.push(`${id} has no source or no formula`);
    for (const input of inputs) {
      if (!Number.isFinite(input.value)) found.push(`${id} takes ${input.name} = ${input.value}`);
      if (!input.field && !input.figure && !input.assumed) found.push(`${id} does not say where ${input.name} is from`);
      if (input.field && !schemaAt(input.field)) found.push(`${id} takes a field ${input.field.join('.')}`);
    }
    for (const path of home) if (!isField(path)) found.push(`${id} is at home in ${path}`);
  }
  for (const { id } of allFigures) {
    const absent = absentAt(analysis, id);
    if (!absent || absent.moot) continue;
    const { lacks: needs, impossible } = absent;
    if (needs.length === 0 && !impossible) found.push(`${id} is absent without a reason`);
    if (impossible && !/^[A-Z0-9].*\.$/.test(impossible)) found.push(`${id}: "${impossible}" is no sentence`);
    for (const need of needs) {
      if (!isField(need)) found.push(`${id} needs ${need}, which no sheet has`);
      const steps = need.split('.');
      const given = steps[0] === 'stages' ? valueAt(stage, steps.slice(1)) : valueAt(values, steps);
      if (given !== undefined) found.push(`${id} needs ${need}, which is there`);
    }
  }
  return found;
}

/** Whether a path without numbers leads to a field; `stages.power` is the power of a stage, `measured.duty` of a reading. */
function isField(path: string): boolean {
  const [first, ...rest] = path.split('.');
  const isInList = (first === 'stages' || first === 'measured') && rest.length > 0;
  const steps = isInList ? [first, 0, ...rest] : path.split('.');
  return schemaAt(steps) !== undefined;
}

function valueAt(value: unknown, steps: readonly string[]): unknown {
  return steps.reduce((inner, step) => (inner as Record<string, unknown> | undefined)?.[step], value);
}

describe('the figures', () => {
  it.each(samples.filter(([name]) => name !== 'night-shift.build.yaml'))(
    'of %s are finite, explained and at home',
    (_, text) => {
      for (const stage of stagesOf(text)) expect(wrong(stage)).toEqual([]);
    },
  );

  it('of any sheet are finite, explained and at home, and those that are absent say what for', () => {
    fc.assert(
      fc.property(randomSheet, (text) => {
        const { sheet, plan } = checkText(text, noHouse);
        expect(sheet.problems.filter(({ severity }) => severity !== 'warning')).toEqual([]);
        for (const stage of plan) expect(wrong(stage)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it('of an empty sheet are all absent but those that need nothing', () => {
    const [stage] = stagesOf('format: 1\n');
    expect(stage?.figures.size).toBeLessThan(allFigures.length / 2);
    expect(stage && wrong(stage)).toEqual([]);
  });

  it('that are absent come once the fields they need are there', () => {
    const needs = (text: string) => absentAt(stagesOf(text)[0] as StageAnalysis, 'duty-redline')?.lacks;
    expect(needs('format: 1\nthrottle-body: { injectors: { quantity: 4, dead-time: 0.9 ms } }\n')).toEqual(
      expect.arrayContaining(['engine.redline', 'throttle-body.injectors.static-flow', 'stages.power']),
    );
    const whole =
      'format: 1\nengine: { cylinders: 8, redline: 5500 rpm }\nfuel: { grade: gasoline }\nstages: [{ power: 245 hp }]\nthrottle-body: { injectors: { quantity: 4, dead-time: 0.9 ms, static-flow: 80 lb/h, rated-pressure: 43.5 psi } }\nfuel-system: { regulator: { pressure: 58 psi, reference: atmosphere } }\n';
    expect(needs(whole)).toBeUndefined();
  });
});
