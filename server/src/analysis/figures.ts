import * as air from './air.ts';
import * as airCleaner from './air-cleaner.ts';
import * as believablePower from './believable-power.ts';
import * as boiling from './boiling.ts';
import * as boost from './boost.ts';
import * as brakes from './brakes.ts';
import * as charging from './charging.ts';
import { fanCircuit, liftPumpCircuit, pumpCircuit } from './circuits.ts';
import * as claim from './claim.ts';
import * as coldStart from './cold-start.ts';
import * as coldestDay from './coldest-day.ts';
import * as compression from './compression.ts';
import * as cranking from './cranking.ts';
import * as days from './days.ts';
import * as demand from './demand.ts';
import * as fuel from './fuel.ts';
import * as fullLoad from './full-load-injection.ts';
import * as fullLoadSpark from './full-load-spark.ts';
import * as gauge from './gauge.ts';
import * as idle from './idle.ts';
import * as idleInjection from './idle-injection.ts';
import * as ignition from './ignition.ts';
import * as injectors from './injectors.ts';
import * as knock from './knock.ts';
import * as liftPump from './lift-pump.ts';
import * as measured from './measured.ts';
import * as nitrous from './nitrous.ts';
import type { FigureNode } from './node.ts';
import * as operatingPoints from './operating-points.ts';
import * as power from './power.ts';
import * as regulator from './regulator.ts';
import * as soak from './soak.ts';
import * as stack from './stack.ts';
import * as suction from './suction.ts';
import * as supply from './supply.ts';
import * as throttle from './throttle.ts';
import * as timing from './timing.ts';
import * as transmission from './transmission.ts';
import * as windows from './windows.ts';

const topics = [
  fuel,
  air,
  power,
  claim,
  boost,
  days,
  demand,
  believablePower,
  nitrous,
  charging,
  pumpCircuit,
  liftPumpCircuit,
  fanCircuit,
  cranking,
  idle,
  injectors,
  regulator,
  fullLoad,
  idleInjection,
  operatingPoints,
  supply,
  liftPump,
  coldestDay,
  boiling,
  coldStart,
  suction,
  throttle,
  transmission,
  brakes,
  soak,
  gauge,
  airCleaner,
  windows,
  stack,
  compression,
  ignition,
  fullLoadSpark,
  knock,
  timing,
  measured,
] as const;

type Topic = (typeof topics)[number];
type NodesOf<T> = T extends unknown ? T[keyof T] : never;

/** Id of a figure. */
export type FigureId = Extract<NodesOf<Topic>, FigureNode> extends FigureNode<infer Id> ? Id : never;

/** Every figure, topic by topic. */
export const figures: readonly FigureNode<FigureId>[] = topics.flatMap((topic) =>
  (Object.values(topic) as unknown[]).filter(isFigure),
);

const byId = new Map<string, FigureNode<FigureId>>(figures.map((node) => [node.id, node]));

/** The figure of that id, if there is one. */
export function figureNamed(id: string): FigureNode<FigureId> | undefined {
  return byId.get(id);
}

function isFigure(value: unknown): value is FigureNode<FigureId> {
  return typeof value === 'object' && value !== null && 'home' in value && 'evaluate' in value;
}
