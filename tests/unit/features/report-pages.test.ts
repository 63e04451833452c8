import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { fuelPaths } from '../../../server/src/features/report/fuel-path.ts';
import { linesToBuy } from '../../../server/src/features/report/lines-to-buy.ts';
import { linesPage, wiringPage } from '../../../server/src/features/report/lists.ts';
import { orderOfWorkPage } from '../../../server/src/features/report/order-of-work.ts';
import { partsPage } from '../../../server/src/features/report/parts.ts';
import { readingsPage } from '../../../server/src/features/report/readings.ts';
import type { Page } from '../../../server/src/report/page.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const TEXT = `format: 1
stages:
  - { name: now, power: 300 hp }
  - name: later
    power: 360 hp
    cost: 400
    nitrous: { name: wet plate, cost: 700, power: 60 hp }
    changes:
      fuel-system: { feed: { inside-diameter: 1/2 in, length: 15 ft, material: ptfe, elbows-90: 2 } }
throttle-body: { name: four-bore, cost: 1100, injectors: { name: spare set, cost: 45, quantity: 4 } }
fuel-system:
  tank: { capacity: 16 gal }
  pump: { placement: in-tank, name: pump A, cost: 210, flow-at: [[40 psi, 300 L/h], [80 psi, 200 L/h]], current: 10 A }
  feed: { inside-diameter: 3/8 in, length: 15 ft, material: rubber-injection }
  filter: { rating: 10 um }
  return: { inside-diameter: 5/16 in, length: 14 ft, material: rubber-injection }
  regulator: { pressure: 58 psi, style: bypass }
electrical:
  charging-voltage: 14 V
  pump-circuit: { wire: 12 AWG, length: 16 ft, fuse: 15 A, relay: true, ground: chassis }
`;
const checked = checkText(TEXT, noHouse);
const { plan } = checked;

function rowsOf(page: Page): readonly (readonly string[])[] {
  return page.flatMap((block) => (block.kind === 'table' ? block.rows : []));
}

describe('the parts list', () => {
  it('has every part that is described, by its name or its figures, and the stage it comes in', () => {
    expect(rowsOf(partsPage(checked))).toEqual([
      ['Throttle body', 'four-bore', '1', '1100.00', 'now'],
      ['Injectors', 'spare set', '4', '180.00', 'now'],
      ['Tank', '16 gal', '1', 'not known', 'now'],
      ['Fuel pump', 'pump A', '1', '210.00', 'now'],
      ['Feed line', '3/8 in, rubber-injection', '1', 'not known', 'now'],
      ['Fine filter', '10 um', '1', 'not known', 'now'],
      ['Return line', '5/16 in, rubber-injection', '1', 'not known', 'now'],
      ['Regulator', '58 psi, bypass', '1', 'not known', 'now'],
      ['Nitrous', 'wet plate', '1', '700.00', 'later'],
      ['Work and the rest of the stage', '', '', '400.00', 'later'],
    ]);
  });

  /** 1100 + 4 x 45 + 210 + 700 + 400 by hand. */
  it('adds the costs that are known and says how many are not', () => {
    expect(JSON.stringify(partsPage(checked))).toContain('Together 2590.00; the cost of 5 of the parts is not known.');
  });
});

describe('the sum of the plan', () => {
  it.each([
    ['the first stage, 1100 + 4 x 45 + 210', 'budget-now', 1490],
    ['all stages, with 700 + 400', 'budget', 2590],
  ])('in the parts list is what a budget is held against: %s', (_, field, sum) => {
    const over = (budget: number) =>
      checkText(`${TEXT}wishes: { ${field}: ${budget} }\n`, noHouse)
        .findings.filter(({ rule }) => rule === 'plan/over-budget')
        .map(({ message }) => message);
    expect(over(sum)).toEqual([]);
    expect(over(sum - 1)).toEqual([expect.stringContaining(`costs at least ${sum}.00, 1.00 more than the budget`)]);
  });
});

describe('the lines to cut', () => {
  it('are told once, and again in the stage that changes them', () => {
    const rows = rowsOf(linesPage(plan, 'us'));
    expect(rows.map(([name, , bore, , , , , stage]) => [name, bore, stage])).toEqual([
      ['Feed', '3/8 in', 'now'],
      ['Return', '5/16 in', 'now'],
      ['Feed', '1/2 in', 'later'],
    ]);
    expect(rows[2]).toEqual(expect.arrayContaining(['2 of 90 deg', '2 hose ends made for PTFE hose']));
  });
});

describe('what to buy of the lines', () => {
  /** PTFE 15 ft for the feed of the last stage; 14 ft of rubber for the return: hose by the foot, nothing left over. */
  it('is by the foot where no catalog says how a line is sold', () => {
    const [table] = linesToBuy(checked, 'us');
    expect(table?.kind === 'table' && table.rows).toEqual([
      ['PTFE-lined hose, 1/2 in bore', 'feed 15 ft', '15 ft', 'nothing', '-'],
      ['rubber injection hose, 5/16 in bore', 'return 14 ft', '14 ft', 'nothing', '-'],
    ]);
  });

  /** Two runs of 16 ft and 14 ft do not fit one coil of 25 ft: two coils, 50 - 30 = 20 ft left, in the trade's unit 6.1 m. */
  it('is in whole coils of tube, each run in one piece', () => {
    const tube = checkText(
      'format: 2\nfuel-system:\n  feed: { inside-diameter: 3/8 in, length: 16 ft, material: steel-tube }\n  return: { inside-diameter: 3/8 in, length: 14 ft, material: steel-tube }\n',
      noHouse,
    );
    const [table] = linesToBuy(tube, 'us');
    expect(table?.kind === 'table' && table.rows[0]).toEqual([
      'steel tube, 3/8 in bore',
      'feed 16 ft and return 14 ft',
      '2 of 25 ft',
      '20 ft',
      '-',
    ]);
  });
});

describe('the wiring list', () => {
  it('says wire, fuse, relay, ground, current and volts of every circuit', () => {
    const [pump] = rowsOf(wiringPage(plan, 'us'));
    expect(pump?.slice(0, 7)).toEqual(['Battery to fuel pump', '12 AWG', '16 ft', '15 A', 'yes', 'chassis', '10 A']);
    expect(pump?.[7]).toMatch(/^1[23]\.?\d* V$/);
  });
});

describe('the readings to take', () => {
  it('put what the sheet expects beside a place for what is read', () => {
    const rows = rowsOf(readingsPage(plan, 'us'));
    expect(rows[0]).toEqual([
      'Fuel pressure, key on, engine off',
      'gauge at the test port while the pump primes',
      '58 psi',
      '58 psi',
      '',
    ]);
    expect(rows.map(([what]) => what)).not.toContain('Fuel pressure at idle, hose off and plugged');
  });

  it('say of what no gauge tells from nothing only that', () => {
    const back = rowsOf(readingsPage(plan, 'us')).find(([what]) => what === 'Pressure in the return line');
    expect(back?.slice(2, 4)).toEqual([expect.stringMatching(/^\d/), expect.stringMatching(/^\d/)]);
    const wide = checkText(checked.sheet.text.replace('inside-diameter: 5/16 in', 'inside-diameter: 3/4 in'), noHouse);
    const none = rowsOf(readingsPage(wide.plan, 'us')).find(([what]) => what === 'Pressure in the return line');
    expect(none?.[2]).toBe('under 0.45 psi');
  });
});

describe('the order of work', () => {
  it('has a step for nitrous where the plan has it, and none for a blower where it does not', () => {
    const text = JSON.stringify(orderOfWorkPage(checked));
    expect(text).toContain('. Nitrous"');
    expect(text).not.toContain('Blower or turbo');
    expect(text.indexOf('Pressure test, engine off')).toBeLessThan(text.indexOf('First start'));
  });
});

describe('the way of the fuel', () => {
  it('goes through the pieces the sheet has, and back', () => {
    const [path] = fuelPaths(plan);
    expect(path?.feed.map(({ name }) => name)).toEqual([
      'tank',
      'pump',
      'feed line',
      'fine filter',
      'throttle body with its injectors',
    ]);
    expect(path?.back.map(({ name }) => name)).toEqual(['regulator', 'return line']);
    expect(path?.feed[2]?.notes).toContain('1/2 in bore');
  });
});
