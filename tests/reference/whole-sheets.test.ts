import { afterAll, describe, expect, it } from 'vitest';
import { figuresOf, type ProductFigure } from './product.ts';
import { awaited, awaitedFor } from './whole-sheets.awaited.ts';
import { agrees, type OutsideFigure, toleranceOf, type WholeSheet, wholeSheets } from './whole-sheets.ts';

/** Where value and bounds of a figure are off, in words. */
function differences(id: string, got: ProductFigure, [value = Number.NaN, low = value, high = value]: OutsideFigure) {
  const pairs: [string, number, number][] = [
    ['value', got.value, value],
    ['low end', got.low ?? got.value, low],
    ['high end', got.high ?? got.value, high],
  ];
  return pairs
    .filter(([, ours, theirs]) => !agrees(id, ours, theirs))
    .map(([what, ours, theirs]) => `${what} ${ours}, outside ${theirs}`);
}

/** Figures of a stage that differ from those worked outside, or that are not there. */
function wrongFigures(sheet: WholeSheet, stage: string, ours: ReadonlyMap<string, ProductFigure>): string[] {
  return Object.entries(sheet.stages[stage] ?? {}).flatMap(([id, outside]) => {
    const got = ours.get(id);
    const off = got ? differences(id, got, outside) : ['missing'];
    const why = awaitedFor(sheet.name, stage, id);
    if (why) return off.length > 0 ? [] : [`${id} agrees now: take it off the list of awaited figures`];
    return off.map((text) => `${id}: ${text} (${toleranceOf(id).because})`);
  });
}

/** How many figures of all sheets are compared: those that are there and not awaited. */
const compared = wholeSheets
  .flatMap(({ name, stages }) =>
    Object.entries(stages).flatMap(([stage, figures]) => Object.keys(figures).map((id) => ({ name, stage, id }))),
  )
  .filter(({ name, stage, id }) => !awaitedFor(name, stage, id)).length;

describe.each(wholeSheets)('$name', (sheet) => {
  const ours = figuresOf(sheet.text, sheet.houses);

  it('has the stages that were worked outside', () => {
    expect([...ours.keys()]).toEqual(Object.keys(sheet.stages));
  });

  it.each(Object.keys(sheet.stages))('agrees in stage "%s"', (stage) => {
    expect(wrongFigures(sheet, stage, ours.get(stage) ?? new Map())).toEqual([]);
  });
});

describe('the whole sheets together', () => {
  it('are at least thirty', () => {
    expect(wholeSheets.length).toBeGreaterThanOrEqual(30);
  });

  it('are compared in thousands of figures', () => {
    expect(compared).toBeGreaterThan(3000);
  });

  it('have tolerances of which some move only one end of a figure', () => {
    const ends = wholeSheets.flatMap(({ stages }) =>
      Object.values(stages).flatMap((figures) => Object.values(figures)),
    );
    const oneEnd = ends.filter(([value, low, high]) => (low === value) !== (high === value));
    expect(oneEnd.length).toBeGreaterThan(0);
  });

  it('are awaited only where there is such a sheet', () => {
    const names = wholeSheets.map(({ name }) => name);
    expect(awaited.flatMap(({ sheets }) => sheets).filter((name) => !names.includes(name))).toEqual([]);
  });

  afterAll(() => console.log(`Figures of ${wholeSheets.length} whole sheets compared: ${compared}`));
});
