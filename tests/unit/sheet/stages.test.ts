import { describe, expect, it } from 'vitest';
import { pathText } from '../../../server/src/sheet/entry.ts';
import type { FieldPath } from '../../../server/src/sheet/path.ts';
import { stagesOf } from '../../../server/src/sheet/stages.ts';
import { read } from './marked.ts';

const sheet = `format: 1
engine: { cylinders: 8, redline: 5500 rpm, intake: { pads: 1 } }
fuel-system: { pump: { flow-at: [[40 psi, 270 L/h], [60 psi, 225 L/h]] } }
stages:
  - { name: now, power: 245 hp }
  - name: camshaft
    power: 290 hp
    changes: { engine: { redline: 6000 rpm } }
  - name: blower
    induction: roots
    changes:
      engine: { intake: { pads: 2 } }
      fuel-system: { pump: { flow-at: [[40 psi, 400 L/h], [60 psi, 340 L/h], [75 psi, 300 L/h]] } }
  - { power: 400 hp, induction: roots, changes: { engine: { redline: 5800 rpm } } }
`;

describe('the stages of a sheet', () => {
  const stages = stagesOf(read(sheet).values);

  it('are in order, each with a name', () => {
    expect(stages.map(({ index, name }) => `${index} ${name}`)).toEqual([
      '0 now',
      '1 camshaft',
      '2 blower',
      '3 stage 4',
    ]);
  });

  it('keep the changes of the earlier ones', () => {
    const redlines = stages.map(({ values }) => values.engine?.redline?.text);
    expect(redlines).toEqual(['5500 rpm', '6000 rpm', '6000 rpm', '5800 rpm']);
    expect(stages.map(({ values }) => values.engine?.intake?.pads)).toEqual([1, 1, 2, 2]);
    expect(stages.map(({ values }) => values.engine?.cylinders)).toEqual([8, 8, 8, 8]);
  });

  it('take a whole list in place of the list before', () => {
    expect(stages.map(({ values }) => values['fuel-system']?.pump?.['flow-at']?.length)).toEqual([2, 2, 3, 3]);
  });

  it('have the same objects where the sheet has, so that what was worked out of them holds', () => {
    const { values, unread } = read(sheet);
    const again = stagesOf({ ...values, title: 'another' }, unread);
    const before = stagesOf(values, unread);
    expect(before[2]?.values.engine).toBe(again[2]?.values.engine);
    expect(before[2]?.values.engine).not.toBe(before[1]?.values.engine);
  });

  it('leave the sheet as it was', () => {
    const read2 = read(sheet);
    stagesOf(read2.values);
    expect(read2.values.engine?.redline?.text).toBe('5500 rpm');
  });

  it('know where the text says what holds in them', () => {
    const place = (stage: number, path: FieldPath) => pathText(stages[stage]?.placeOf(path) ?? []);
    expect(place(0, 'engine.redline')).toBe('engine.redline');
    expect(place(1, 'engine.redline')).toBe('stages[1].changes.engine.redline');
    expect(place(2, 'engine.redline')).toBe('stages[1].changes.engine.redline');
    expect(place(3, 'engine.redline')).toBe('stages[3].changes.engine.redline');
    expect(place(3, 'engine.intake.pads')).toBe('stages[2].changes.engine.intake.pads');
    expect(place(3, 'engine.cylinders')).toBe('engine.cylinders');
    expect(place(3, 'engine.idle')).toBe('engine.idle');
  });

  it('know the last one before a blower', () => {
    expect(stages.map(({ natural }) => natural?.index)).toEqual([0, 1, 1, 1]);
  });

  it('are one where the sheet has none', () => {
    const [only, ...others] = stagesOf(read('format: 1\nengine: { cylinders: 8 }\n').values);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ index: 0, name: 'stage 1', stage: {}, values: { engine: { cylinders: 8 } } });
  });

  it('keep their number where one of them cannot be read', () => {
    const stages = stagesOf(read('format: 1\nstages:\n  - { name: a }\n  - { name: 5 }\n  - { name: c }\n').values);
    expect(stages.map(({ name }) => name)).toEqual(['a', 'stage 2', 'c']);
  });

  it('keep their number where one of them is no stage at all', () => {
    const stages = stagesOf(read('format: 1\nstages:\n  - { name: a }\n  - 5\n  - { name: c }\n').values);
    expect(stages.map(({ name }) => name)).toEqual(['a', 'stage 2', 'c']);
  });
});
