import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { figureOf } from './sheets.ts';

/**
 * 406 cars of 1970 to 1982 from the open data set vega-datasets, cars.json: displacement in cubic inches, gross or net
 * power in hp as it was published then. It has no speed of peak power; 4,500 rpm stands for all of them.
 */
type Car = { Cylinders: number; Displacement: number; Horsepower: number | null };

const cars = (JSON.parse(readFileSync('node_modules/vega-datasets/data/cars.json', 'utf8')) as Car[]).filter(
  (car) => car.Horsepower !== null,
);

const HP = 745.6998715822702;
const CUBIC_INCH = 1.6387064e-5;
const PSI = 6894.757293168361;
const POUND_PER_HOUR = 0.45359237 / 3600;

function sheetOf({ Cylinders, Displacement }: Car, power: number): string {
  return `format: 1
engine: { cylinders: ${Cylinders}, displacement: ${Displacement} in^3, peak-power-speed: 4500 rpm, redline: 5000 rpm, idle: 700 rpm }
fuel: { grade: gasoline }
stages: [{ name: as built, power: ${power} hp, induction: natural }]
`;
}

const nameOf = ({ Cylinders, Displacement, Horsepower }: Car) =>
  `${Cylinders} cylinders, ${Displacement} in^3, ${Horsepower} hp`;

/** The data set gives rotary engines three cylinders; their displacement is counted in another way. */
const isRotary = ({ Cylinders }: Car) => Cylinders === 3;

const rows = cars.map((car) => {
  const power = car.Horsepower ?? 0;
  const { sheet, plan, findings } = checkText(sheetOf(car, power), noHouse);
  const value = (id: string) => plan[0]?.figures.get(id)?.value ?? Number.NaN;
  return {
    car,
    problems: sheet.problems,
    findings,
    specificPower: power / (car.Displacement * CUBIC_INCH * 1e3),
    bmep: value('mean-effective-pressure'),
    demand: value('demand-by-power'),
    volumetricEfficiency: value('implied-volumetric-efficiency'),
  };
});

function spread(name: string, unit: string, values: number[]): string {
  const sorted = values.toSorted((one, other) => one - other);
  const at = (share: number) => (sorted[Math.round(share * (sorted.length - 1))] ?? 0).toFixed(1).padStart(7);
  return `  ${name.padEnd(30)} ${at(0)} ${at(0.5)} ${at(1)}  ${unit}`;
}

describe('400 real cars', () => {
  afterAll(() => {
    console.log(
      [
        `${rows.length} cars of 1970 to 1982: least, median, most`,
        spread(
          'power per displacement',
          'hp/L',
          rows.map(({ specificPower }) => specificPower),
        ),
        spread(
          'mean effective pressure',
          'psi',
          rows.map(({ bmep }) => bmep / PSI),
        ),
        spread(
          'fuel demand',
          'lb/h',
          rows.map(({ demand }) => demand / POUND_PER_HOUR),
        ),
        spread(
          'volumetric efficiency implied',
          '%',
          rows.map(({ volumetricEfficiency }) => volumetricEfficiency * 100),
        ),
      ].join('\n'),
    );
  });

  it('are read without a problem', () => {
    expect(rows).toHaveLength(400);
    expect(rows.flatMap(({ problems }) => problems)).toEqual([]);
  });

  it('have a mean effective pressure an engine without a blower can have', () => {
    for (const { car, bmep } of rows.filter((row) => !isRotary(row.car))) {
      expect(bmep / PSI, nameOf(car)).toBeGreaterThan(40);
      expect(bmep / PSI, nameOf(car)).toBeLessThan(190);
    }
  });

  it('drink what their power asks for, at 0.45 to 0.5 lb a horsepower and hour', () => {
    for (const { car, demand } of rows) {
      const consumption = demand / POUND_PER_HOUR / (car.Horsepower ?? 0);
      expect(consumption, nameOf(car)).toBeGreaterThanOrEqual(0.45 - 1e-9);
      expect(consumption, nameOf(car)).toBeLessThanOrEqual(0.5 + 1e-9);
    }
  });

  it('drink twice as much at twice the power, and have twice the mean effective pressure', () => {
    for (const { car, demand, bmep } of rows.filter((_, index) => index % 7 === 0)) {
      const twice = sheetOf(car, 2 * (car.Horsepower ?? 0));
      expect(figureOf(twice, 'demand-by-power') / demand, nameOf(car)).toBeCloseTo(2, 9);
      expect(figureOf(twice, 'mean-effective-pressure') / bmep, nameOf(car)).toBeCloseTo(2, 9);
    }
  });

  it('make no power twice: power is mean effective pressure, displacement and half the speed', () => {
    for (const { car, bmep } of rows) {
      const power = (bmep * car.Displacement * CUBIC_INCH * 75) / 2;
      expect(power / HP / (car.Horsepower ?? 1), nameOf(car)).toBeCloseTo(1, 9);
    }
  });

  it('are said to be out of reach only where they are rotary', () => {
    const doubted = rows.filter(({ findings }) => findings.some(({ rule }) => rule === 'engine/power-out-of-reach'));
    expect(doubted.map(({ car }) => nameOf(car))).toEqual(cars.filter(isRotary).map(nameOf));
    expect(doubted).toHaveLength(4);
  });
});
