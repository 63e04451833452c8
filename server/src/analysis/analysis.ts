import type { Limits } from '../generated/build-sheet.ts';
import type { House } from '../sheet/house.ts';
import type { Sheet } from '../sheet/read.ts';
import { type StageSheet, stagesOf } from '../sheet/stages.ts';
import { airFigures, compressionFigures } from './air.ts';
import { demandFigures } from './demand.ts';
import { electricalFigures } from './electrical.ts';
import type { Absent, Figure, FigureId, Term } from './figure.ts';
import { fuelFigures } from './fuel.ts';
import { ignitionFigures } from './ignition.ts';
import { injectionFigures } from './injection.ts';
import { suctionFigures } from './suction.ts';
import { supplyFigures } from './supply.ts';
import { throttleFigures } from './throttle.ts';
import { withTolerances } from './tolerance.ts';
import { type Pick, Worksheet } from './worksheet.ts';

/** Every figure of one stage, and those that cannot be computed with the reason. */
export type StageAnalysis = StageSheet & {
  figures: ReadonlyMap<FigureId, Figure>;
  absent: ReadonlyMap<FigureId, Absent & { name: string; home: readonly string[] }>;
  /** A limit of the sheet or the house. */
  limit: (name: keyof Limits & string) => Term;
};

const nominal: Pick = (quantity) => quantity.value;

/** The figures of every stage of a sheet, with bounds where the sheet gives tolerances. */
export function analyze(sheet: Sheet, house: House): StageAnalysis[] {
  return stagesOf(sheet).map((stage) => {
    const compute = (pick: Pick) => computeStage(stage, house, pick);
    const worksheet = compute(nominal);
    const figures = withTolerances(stage, worksheet.figures, (pick) => compute(pick).figures);
    return { ...stage, figures, absent: worksheet.absent, limit: (name) => worksheet.limit(name) };
  });
}

function computeStage(stage: StageSheet, house: House, pick: Pick): Worksheet {
  const w = new Worksheet(stage, [stage.values.limits, house.limits], pick);
  const fuel = fuelFigures(w, house.fuel);
  const air = airFigures(w);
  const demand = demandFigures(w, air, fuel);
  const electrical = electricalFigures(w);
  injectionFigures(w, air, demand, fuel);
  const supply = supplyFigures(w, air, demand, fuel, electrical);
  suctionFigures(w, air, fuel, supply);
  throttleFigures(w, air, demand);
  compressionFigures(w, air);
  ignitionFigures(w, air);
  return w;
}
