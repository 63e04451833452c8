import type { StageAnalysis } from '../../analysis/analysis.ts';
import type { FigureNode } from '../../analysis/node.ts';
import {
  filterInletPressure,
  pumpInletPressure,
  pumpOutletPressure,
  railPressure,
  returnBackPressure,
} from '../../analysis/supply.ts';
import type { BuildSheet, Line } from '../../generated/build-sheet.ts';
import { materialName } from '../../remedies/line-class.ts';
import type { FuelPath, Piece } from '../../report/fuel-path.ts';
import { echo } from '../../text/echo.ts';

type FuelSystem = NonNullable<BuildSheet['fuel-system']>;

const PLACES = {
  'in-tank': 'in the tank',
  'tank-module': 'in a module in the tank',
  'surge-tank': 'in a surge tank',
  external: 'outside the tank',
} as const;

/** The way of the fuel in the last stage, with the pressures of full load; nothing while the sheet says nothing of it. */
export function fuelPaths(plan: readonly StageAnalysis[]): FuelPath[] {
  const stage = plan.at(-1);
  const system = stage?.sheet.values['fuel-system'];
  if (!stage || !system?.pump) return [];
  const pressure = (node: FigureNode) => {
    const value = stage.estimate(node)?.value;
    return value === undefined ? {} : { pressure: value };
  };
  const style = system.regulator?.style ?? 'bypass';
  const isOutside = system.pump.placement === 'external';
  const feed: Piece[] = [
    { sign: 'tank', name: 'tank', notes: notesOf(system.tank?.capacity?.text) },
    ...pieces(system['lift-pump'], (lift) => ({ sign: 'pump', name: 'lift pump', notes: notesOf(lift.name) })),
    ...pieces(isOutside ? system.suction : undefined, (line) => lineOf('suction line', line)),
    ...pieces(system['pre-filter'], (filter) => ({
      sign: 'filter',
      name: 'strainer ahead of the pump',
      notes: notesOf(filter.rating?.text),
      ...pressure(pumpInletPressure),
    })),
    pumpOf(system.pump, pressure(pumpOutletPressure)),
    ...(style === 'internal-bypass' ? [regulatorOf(system)] : []),
    ...pieces(system.feed, (line) => ({ ...lineOf('feed line', line), ...pressure(filterInletPressure) })),
    ...pieces(system.filter, (filter) => ({
      sign: 'filter',
      name: 'fine filter',
      notes: notesOf(filter.rating?.text),
      ...pressure(railPressure),
    })),
    ...(style === 'dead-head' ? [regulatorOf(system)] : []),
    { sign: 'injectors', name: 'throttle body with its injectors', notes: [] },
  ];
  const back: Piece[] =
    style === 'bypass'
      ? [
          { ...regulatorOf(system), ...pressure(returnBackPressure) },
          ...pieces(system.return, (line) => lineOf('return line', line)),
        ]
      : [];
  return [
    {
      kind: 'fuel-path',
      title: `The way of the fuel, ${echo(stage.name)}`,
      description: 'From the tank down to the injectors, with the gauge pressure at full load behind each piece.',
      feed,
      back,
    },
  ];
}

function pieces<Part>(part: Part | undefined, piece: (part: Part) => Piece): Piece[] {
  return part === undefined ? [] : [piece(part)];
}

function pumpOf(pump: NonNullable<FuelSystem['pump']>, pressure: Pick<Piece, 'pressure'>): Piece {
  const { name, placement, quantity = 1, arrangement } = pump;
  const several = quantity > 1 ? [`${quantity} of them`, ...(arrangement ? [arrangement] : [])] : [];
  const where = placement && PLACES[placement];
  return {
    sign: 'pump',
    name: quantity > 1 ? 'pumps' : 'pump',
    notes: [...notesOf(name, where), ...several],
    ...pressure,
  };
}

function regulatorOf({ regulator }: FuelSystem): Piece {
  const reference = regulator?.reference === 'manifold' ? 'hose to the manifold' : undefined;
  return { sign: 'regulator', name: 'regulator', notes: notesOf(regulator?.pressure?.text, reference) };
}

function lineOf(name: string, line: Line): Piece {
  const bore = line['inside-diameter']?.text;
  return {
    sign: 'line',
    name,
    notes: notesOf(bore && `${bore} bore`, line.length?.text, line.material && materialName[line.material]),
  };
}

function notesOf(...notes: readonly (string | undefined)[]): string[] {
  return notes.flatMap((note) => (note ? [echo(note, 80)] : []));
}
