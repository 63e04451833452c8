import type { StageAnalysis } from '../../analysis/analysis.ts';
import { chargingVoltage } from '../../analysis/charging.ts';
import { pumpCircuit } from '../../analysis/circuits.ts';
import { pumps } from '../../analysis/fuel-network.ts';
import { dutyOverSpeed } from '../../analysis/full-load-injection.ts';
import { limit, type Node } from '../../analysis/node.ts';
import {
  filterInletPressure,
  pumpDelivery,
  pumpInletPressure,
  pumpOutletPressure,
  pumpPressure,
  railPressure,
  requiredDelivery,
  systemCurve,
} from '../../analysis/supply.ts';
import { pumpsFlow, zeroFlowPressureOf } from '../../engineering/pump.ts';
import type { Plot, Point } from '../../report/plot.ts';
import { echo } from '../../text/echo.ts';

type Plan = readonly StageAnalysis[];

/** Points of the pump's curve. */
const POINTS = 12;

/** A line a stage; stages with the same line share one. */
function linesOf(plan: Plan, pointsOf: (stage: StageAnalysis) => readonly Point[] | undefined): Plot['lines'] {
  const lines = new Map<string, Plot['lines'][number]>();
  for (const stage of plan) {
    const points = pointsOf(stage);
    if (!points) continue;
    const key = JSON.stringify(points);
    const same = lines.get(key);
    lines.set(key, { name: same ? `${same.name}, ${echo(stage.name)}` : echo(stage.name), points });
  }
  return [...lines.values()];
}

/** Injector duty over engine speed, a line a stage. */
export function dutyPlots(plan: Plan): Plot[] {
  const lines = linesOf(plan, (stage) => stage.know(dutyOverSpeed)?.map(({ speed, duty }) => ({ x: speed, y: duty })));
  if (lines.length === 0) return [];
  const most = plan[0]?.know(limit('largest-duty'));
  return [
    {
      kind: 'plot',
      title: 'Injector duty cycle over engine speed at full load',
      description: 'One line a stage; the dotted line is the largest duty allowed.',
      x: { name: 'engine speed', dimension: 'rotational-speed' },
      y: { name: 'duty cycle', dimension: 'ratio' },
      lines,
      ...(most !== undefined && { limit: { name: 'limit', value: most } }),
      marks: [],
    },
  ];
}

/** What the pumps of the last stage deliver over pressure, and what every stage needs of them. */
export function pumpPlots(plan: Plan): Plot[] {
  const units = plan.map((stage) => stage.know(pumps)).findLast((found) => found !== undefined);
  if (!units) return [];
  const most = zeroFlowPressureOf(units, true);
  const points = Array.from({ length: POINTS + 1 }, (_, step) => {
    const pressure = (most * step) / POINTS;
    return { x: pressure, y: step === POINTS ? 0 : pumpsFlow(units, pressure, true).flow };
  });
  const marks = plan.flatMap((stage) => {
    const [x, y] = [stage.know(pumpPressure), stage.know(requiredDelivery)];
    return x === undefined || y === undefined ? [] : [{ name: `needed, ${echo(stage.name, 20)}`, x, y }];
  });
  const [pressure, delivery] = [pumpPressure, pumpDelivery].map((node) => plan.at(-1)?.know(node));
  const runs =
    pressure === undefined || delivery === undefined ? [] : [{ name: 'runs here', x: pressure, y: delivery }];
  const systems = linesOf(plan, (stage) =>
    stage.know(systemCurve)?.map(({ flow, pressure }) => ({ x: pressure, y: flow })),
  );
  return [
    {
      kind: 'plot',
      title: 'Pump delivery over pressure at the volts that reach it',
      description:
        'The curve of the pumps that run at full load, with what each stage needs of them: a point above the curve is not delivered. The other curves are the pressure that lines, filter and regulator ask for; the pump runs where the two cross.',
      x: { name: 'pressure the pump adds', dimension: 'pressure' },
      y: { name: 'delivery', dimension: 'volume-flow' },
      lines: [
        { name: 'pump', points },
        ...systems.map((line) => ({ ...line, name: `lines, filter and regulator, ${line.name}` })),
      ],
      marks: [...runs, ...marks],
    },
  ];
}

/** Fuel pressure from the pump's inlet to the injectors at full load, a line a stage. */
export function pressurePlots(plan: Plan): Plot[] {
  const at = [
    ['pump inlet', pumpInletPressure],
    ['pump outlet', pumpOutletPressure],
    ['behind the feed line', filterInletPressure],
    ['at the injectors', railPressure],
  ] as const;
  return alongTheWay(plan, at, {
    title: 'Fuel pressure along the way to the engine at full load',
    description: 'Gauge pressure from the inlet of the pump to the injectors, one line a stage.',
    y: { name: 'pressure', dimension: 'pressure' },
  });
}

/** Volts from the alternator to the pump, a line a stage. */
export function voltagePlots(plan: Plan): Plot[] {
  const at = [
    ['at the battery, engine running', chargingVoltage],
    ['at the pump', pumpCircuit.voltage],
  ] as const;
  return alongTheWay(plan, at, {
    title: 'Volts on the way to the pump',
    description: 'What wire, fuse, relay and connectors leave of the charging voltage, one line a stage.',
    y: { name: 'voltage', dimension: 'voltage' },
  });
}

function alongTheWay(
  plan: Plan,
  at: readonly (readonly [string, Node<number>])[],
  about: Pick<Plot, 'title' | 'description' | 'y'>,
): Plot[] {
  const lines = linesOf(plan, (stage) => {
    const points = at.flatMap(([, node], x) => {
      const y = stage.know(node);
      return y === undefined ? [] : [{ x, y }];
    });
    return points.length === at.length ? points : undefined;
  });
  if (lines.length === 0) return [];
  return [{ kind: 'plot', ...about, x: { name: 'place', places: at.map(([place]) => place) }, lines, marks: [] }];
}
