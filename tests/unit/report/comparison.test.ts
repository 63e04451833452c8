import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { type Comparison, comparisonOf } from '../../../server/src/report/comparison.ts';
import { outcomeOf, verdict } from '../../../server/src/report/comparison-page.ts';
import { type House, noHouse } from '../../../server/src/sheet/house.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';

const PLAN = readFileSync('samples/overreach-roadster.build.yaml', 'utf8');
const WAGON = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');

function compare(before: string, after: string, houses: readonly [House, House] = [noHouse, noHouse]): Comparison {
  return inOneGo(comparisonOf(checkText(before, houses[0]), checkText(after, houses[1]), rules));
}

/** The changes of a comparison, each cause with the fields that are changed in it. */
function causes({ causes: all }: Comparison): string[] {
  return all.map(({ changes }) =>
    changes
      .map((part) => ('fields' in part ? part.fields.map(({ place }) => place.join('.')).join() : 'house'))
      .join(' + '),
  );
}

const changed = (text: string, ...pairs: [string, string][]) =>
  pairs.reduce((all, [from, to]) => {
    expect(all).toContain(from);
    return all.replace(from, to);
  }, text);

describe('the comparison of two sheets', () => {
  it('tells what is gone, which figure came back within its limit, and the one field that did it', () => {
    const comparison = compare(PLAN, changed(PLAN, ['62 lb/h', '115 lb/h']));
    expect(outcomeOf(comparison)).toBe('better');
    expect(comparison.gone).toMatchObject([
      { rule: 'plan/part-outgrown', message: expect.stringContaining('times the time there is') },
    ]);
    expect(comparison.figures[0]).toMatchObject({
      figure: 'duty-peak-power',
      stage: 'roots blower',
      crossed: 'within',
    });
    expect(causes(comparison)).toEqual(['throttle-body.injectors.static-flow']);
    expect(comparison.causes[0]?.findings).toEqual(comparison.gone);
    expect(comparison.causes[0]?.figures).toHaveLength(comparison.figures.length);
  });

  it('tells the way back as the opposite', () => {
    const comparison = compare(changed(PLAN, ['62 lb/h', '115 lb/h']), PLAN);
    expect(outcomeOf(comparison)).toBe('worse');
    expect(comparison.new).toMatchObject([{ rule: 'plan/part-outgrown' }]);
    expect(comparison.figures[0]?.crossed).toBe('beyond');
  });

  it.each([
    ['first: a quantity in another unit', [['560 hp', '417.6 kW']], '1 field is written otherwise'],
    ['a quantity in another unit, exactly', [['5.25 L', '5250 cc']], '1 field is written otherwise'],
    ['a title', [['Overreach', 'Underreach']], '1 field is written otherwise'],
    ['a comment', [['engine:', 'engine: # as bought']], 'only comments'],
  ] as const)('says that %s has no effect', (_, pairs, says) => {
    const comparison = compare(PLAN, changed(PLAN, ...pairs.map(([from, to]): [string, string] => [from, to])));
    expect(outcomeOf(comparison)).toBe('no effect');
    expect(verdict(comparison)).toMatch(/^No effect: /);
    expect(verdict(comparison)).toContain(says);
    expect(comparison.figures).toEqual([]);
  });

  it('says that the same text is the same', () => {
    expect(outcomeOf(compare(PLAN, PLAN))).toBe('same');
  });

  it('names fields that do something only together', () => {
    const comparison = compare(PLAN, changed(PLAN, ['62 lb/h', '70 lb/h'], ['560 hp', '600 hp']));
    expect(causes(comparison)).toEqual([
      'stages.1.power',
      'throttle-body.injectors.static-flow',
      'stages.1.power + throttle-body.injectors.static-flow',
    ]);
    const duty = comparison.better.find(({ message }) => message.includes('the time there is'));
    expect(comparison.causes[2]?.findings).toEqual([duty]);
  });

  it('calls a finding that misses its limit by more worse', () => {
    const comparison = compare(PLAN, changed(PLAN, ['62 lb/h', '50 lb/h']));
    expect(comparison.worse).toMatchObject([{ before: { severity: 'error' } }]);
    expect(outcomeOf(comparison)).toBe('worse');
  });

  it('never takes a check that cannot be made any more for something better', () => {
    const comparison = compare(PLAN, changed(PLAN, ['static-flow: 62 lb/h, ', '']));
    expect(comparison.gone.map(({ message }) => message).filter((message) => message.includes('Duty'))).toEqual([]);
    expect(comparison.unchecked).toContainEqual(
      expect.objectContaining({
        rule: 'throttle-body/duty',
        stage: 'roots blower',
        found: expect.stringContaining('times the time there is'),
      }),
    );
    expect(outcomeOf(comparison)).not.toBe('better');
  });

  it('knows a stage again by its place when it goes by another name', () => {
    const comparison = compare(PLAN, changed(PLAN, ['name: roots blower', 'name: blown']));
    expect(outcomeOf(comparison)).toBe('no effect');
    expect(comparison.withoutEffect).toHaveLength(1);
  });

  it('tells of an added stage only what it brings', () => {
    const more = changed(WAGON, [
      '  - { name: camshaft',
      '  - { name: hot cam, power: 700 hp, induction: natural }\n  - { name: camshaft',
    ]);
    const comparison = compare(WAGON, more);
    expect(comparison.new.length).toBeGreaterThan(0);
    expect(new Set(comparison.new.flatMap(({ stages }) => stages))).toContain('hot cam');
    expect(comparison.figures).toEqual([]);
    expect(causes(comparison)).toEqual(['stages.1']);
  });

  it('tells what the sheet accepts now as such, not as better', () => {
    const points = changed(WAGON, ['trigger: magnetic-pickup', 'trigger: contact-points']);
    const comparison = compare(points, `${points}silence: [{ rule: ignition/contact-points, reason: for now }]\n`);
    expect(comparison.gone).toMatchObject([{ rule: 'ignition/contact-points', accepted: 'for now' }]);
    expect(outcomeOf(comparison)).toBe('changed');
  });

  it('puts house rules back as one', () => {
    const strict = {
      limits: { 'largest-duty': { value: 0.5, low: 0.5, high: 0.5, dimension: 'ratio', unit: '%', text: '50 %' } },
    } as House;
    const comparison = compare(WAGON, WAGON, [noHouse, strict]);
    expect(causes(comparison)).toContain('house');
    expect(comparison.figures.some(({ figure, crossed }) => figure === 'duty-peak-power' && crossed === 'beyond')).toBe(
      true,
    );
  });

  it('compares what can be read of a broken text, and says so', () => {
    const comparison = compare(PLAN, changed(PLAN, ['stack: { air', 'stack: [ air']));
    expect(verdict(comparison)).toMatch(/^Part of the new text cannot be read/);
    expect(comparison.new.some(({ rule }) => rule.startsWith('sheet/'))).toBe(true);
  });

  it('stops when time is up', () => {
    const steps = comparisonOf(
      checkText(PLAN, noHouse),
      checkText(changed(PLAN, ['62 lb/h', '90 lb/h']), noHouse),
      rules,
    );
    let step = steps.next(true);
    let count = 0;
    while (!step.done && count++ < 10) step = steps.next(true);
    expect(step.done && step.value.isCut).toBe(true);
  });
});
