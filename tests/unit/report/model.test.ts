import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import {
  acceptedTable,
  assumptionTable,
  figureTable,
  findingTable,
  openTable,
} from '../../../server/src/report/model.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { samples, sheetWith, stagesOf } from '../analysis/sheets.ts';

const HORSEPOWER = 745.69987158227;

describe('the tables of a build', () => {
  it('give every figure by stage, with its bounds', () => {
    const table = figureTable(stagesOf(sheetWith({ power: '300 +/- 30 hp' })));
    const demand = table.find(({ figure }) => figure === 'demand-by-power');
    const [now, blower] = demand?.stages ?? [];
    expect(demand?.dimension).toBe('mass-flow');
    expect((now?.high ?? 0) / (now?.value ?? 1)).toBeCloseTo(1.1, 9);
    expect(blower).not.toHaveProperty('high');
    expect(table.map(({ figure }) => figure)).toEqual([...new Set(table.map(({ figure }) => figure))]);
  });

  it('leave out a stage that does not have a figure, and a figure no stage has', () => {
    const table = figureTable(stagesOf(sheetWith()));
    expect(table.find(({ figure }) => figure === 'pressure-ratio')?.stages[0]).toBeUndefined();
    expect(table.find(({ figure }) => figure === 'pressure-ratio')?.stages[1]).toBeDefined();
    expect(table.filter(({ stages }) => stages.every((cell) => cell === undefined))).toEqual([]);
  });

  it('tell how far the bad end of a figure is from what it is held against', () => {
    const table = figureTable(stagesOf(sheetWith({ feedDiameter: '7..9 mm' })));
    const [cell] = table.find(({ figure }) => figure === 'feed-velocity')?.stages ?? [];
    expect(cell?.limit).toMatchObject({ value: 3, side: 'at most' });
    expect(cell?.limit?.margin).toBeCloseTo(3 - (cell?.high ?? Number.NaN), 12);
    const [margin] = table.find(({ figure }) => figure === 'pump-margin')?.stages ?? [];
    expect(margin?.limit?.margin).toBeCloseTo(margin?.low ?? margin?.value ?? Number.NaN, 12);
  });

  it('tell findings, open checks and what is accepted by the names of their stages', () => {
    const text = 'format: 1\nstages:\n  - { name: now, power: 200 hp, induction: roots }\n';
    const checked = checkText(text, noHouse);
    const rule = 'engine/blower-without-boost';
    expect(findingTable(checked).find((row) => row.rule === rule)?.stages).toEqual(['now']);
    const accepting = checkText(`${text}silence:\n  - { rule: ${rule}, reason: not yet }\n`, noHouse);
    expect(findingTable(accepting).map((row) => row.rule)).not.toContain(rule);
    expect(acceptedTable(accepting)).toMatchObject([{ rule, stages: ['now'], reason: 'not yet' }]);
    expect(openTable(checked).flatMap(({ lacks }) => lacks)).toContain('engine.displacement');
  });

  it('count the figures that take an assumption, the most used first', () => {
    const table = assumptionTable(stagesOf(sheetWith()));
    const counts = table.map(({ figures }) => figures);
    expect(counts).toEqual(counts.toSorted((one, other) => other - one));
    expect(table.find(({ path }) => path?.join('.') === 'engine.volumetric-efficiency')?.because).toBe(
      'common practice',
    );
  });

  it.each(samples)('hold no text of markup in %s', (_, text) => {
    const checked = checkText(text, noHouse);
    const tables = [
      figureTable(checked.plan),
      findingTable(checked),
      openTable(checked),
      assumptionTable(checked.plan),
    ];
    expect(JSON.stringify(tables)).not.toMatch(/\*\*|\| /);
  });

  it('are in SI', () => {
    const table = assumptionTable(stagesOf(sheetWith()));
    const power = figureTable(stagesOf(sheetWith())).find(({ figure }) => figure === 'power-fed')?.stages[0]?.value;
    expect((power ?? 0) / HORSEPOWER).toBeGreaterThan(100);
    expect(table.every(({ value }) => Number.isFinite(value))).toBe(true);
  });
});
