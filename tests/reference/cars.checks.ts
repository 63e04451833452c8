import { readFileSync } from 'node:fs';
import { engineVolumeFlow } from '../../server/src/engineering/air.ts';
import { brakeMeanEffectivePressure, fuelDemandByPower } from '../../server/src/engineering/demand.ts';
import { fromFirstSet } from './check.ts';
import {
  CUBIC_FOOT_PER_MINUTE,
  CUBIC_INCH,
  HORSEPOWER,
  POUND_PER_HORSEPOWER_HOUR,
  POUND_PER_HOUR,
  PSI,
  RPM,
} from './units.ts';

type Engine = { displacement: number; power: number };

const file = new URL('../../node_modules/vega-datasets/data/cars.json', import.meta.url);
const cars: { Displacement: number; Horsepower: number | null }[] = JSON.parse(readFileSync(file, 'utf8'));

/** The 400 cars of the open data set that state a power: displacement in m3, power in W. */
const engines = cars.flatMap((car): Engine[] =>
  car.Horsepower === null ? [] : [{ displacement: car.Displacement * CUBIC_INCH, power: car.Horsepower * HORSEPOWER }],
);

function sorted(figure: (engine: Engine) => number): number[] {
  return engines.map(figure).sort((one, other) => one - other);
}

function median(figure: (engine: Engine) => number): number {
  const values = sorted(figure);
  const middle = values.length / 2;
  return ((values[Math.ceil(middle) - 1] as number) + (values[Math.floor(middle)] as number)) / 2;
}

const least = (figure: (engine: Engine) => number) => sorted(figure)[0] as number;
const most = (figure: (engine: Engine) => number) => sorted(figure).at(-1) as number;

const specificPower = ({ displacement, power }: Engine) => power / HORSEPOWER / (displacement * 1e3);
const bmep = ({ displacement, power }: Engine) => brakeMeanEffectivePressure(power, displacement, 4500 * RPM) / PSI;
const fuel = ({ power }: Engine) => fuelDemandByPower(power, 0.5 * POUND_PER_HORSEPOWER_HOUR) / POUND_PER_HOUR;
const air = ({ displacement }: Engine) => engineVolumeFlow(displacement, 4500 * RPM, 0.8) / CUBIC_FOOT_PER_MINUTE;

const first = (id: string, section: number, got: () => number) => fromFirstSet(id, section, 'real cars', got);

export const checks = [
  first('A01', 2, () => least(specificPower)),
  first('A02', 2, () => median(specificPower)),
  first('A03', 2, () => most(specificPower)),
  first('A05', 2, () => median(bmep)),
  first('A06', 2, () => most(bmep)),
  first('A08', 3, () => median(fuel)),
  first('A11', 2, () => median(air)),
  first('A12', 2, () => most(air)),
];
