import { readdirSync, readFileSync } from 'node:fs';
import { analyze, type StageAnalysis } from '../../../server/src/analysis/analysis.ts';
import type { Absent } from '../../../server/src/analysis/figure.ts';
import { type FigureId, figureNamed } from '../../../server/src/analysis/figures.ts';
import { absentIn } from '../../../server/src/analysis/worksheet.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { read } from '../sheet/marked.ts';

/** The sample sheets by their file name. */
export const samples: [name: string, text: string][] = readdirSync('samples')
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => [name, readFileSync(`samples/${name}`, 'utf8')]);

/** The stages of a sheet that has nothing wrong with it. */
export function stagesOf(text: string): StageAnalysis[] {
  const sheet = read(text);
  const [problem] = sheet.problems;
  if (problem) throw new Error(`${problem.message} in\n${text}`);
  return analyze(sheet.values, noHouse);
}

/** A figure's value in the first stage of a sheet; throws where there is none. */
export function figureOf(text: string, id: string, stage = 0): number {
  const found = stagesOf(text)[stage];
  const figure = found?.figures.get(id);
  if (!figure) throw new Error(`${id} is absent: ${JSON.stringify(found && absentAt(found, id as FigureId))}`);
  return figure.value;
}

/** Why a figure cannot be had in a stage; nothing where it can. */
export function absentAt(stage: StageAnalysis, id: FigureId): Absent | undefined {
  const node = figureNamed(id);
  if (!node) throw new Error(`no figure is named ${id}`);
  return absentIn(stage.see(node));
}

/** An external pump beside the tank, with everything that the figures of a fuel system need. */
export const externalPump = {
  power: '300 hp',
  altitude: '300 m',
  hottestFuel: '40 degC',
  displacement: '5.7 L',
  redline: '5600 rpm',
  staticFlow: '80 lb/h',
  wire: '12 AWG',
  feedLength: '5 m',
  feedDiameter: '8 mm',
  suctionLength: '0.6 m',
  height: '-0.1 m',
  setPressure: '58 psi',
  boost: '6 psi',
  dwellVoltage: '13.8 V',
  vaporPressure: '9 psi',
  tankCapacity: '60 L',
  capPressure: '0 psi',
  returnDiameter: '8 mm',
  coldest: '0 degC',
  lowest: '0 m',
  highest: '',
  camDuration: '210 deg',
  grade: 'gasoline',
  condition: 'as-driven',
};

export type Parameters = typeof externalPump;

/** The sheet of that pump with some of its values changed; a blower in the second stage. */
export function sheetWith(changed: Partial<Parameters> = {}): string {
  const p = { ...externalPump, ...changed };
  return `format: 2
site: { altitude: ${p.altitude}, lowest-altitude: ${p.lowest}, ${p.highest && `highest-altitude: ${p.highest}, `}coldest: ${p.coldest}, hottest: 30 degC, hottest-fuel: ${p.hottestFuel} }
engine:
  cylinders: 8
  displacement: ${p.displacement}
  compression-ratio: 9
  idle: 750 rpm
  peak-power-speed: 5000 rpm
  redline: ${p.redline}
  cam-duration: ${p.camDuration}
fuel: { grade: ${p.grade}, vapor-pressure: ${p.vaporPressure} }
stages:
  - { name: now, power: ${p.power}, power-condition: ${p.condition}, induction: natural }
  - { name: blower, power: 420 hp, power-condition: ${p.condition}, induction: roots, boost: ${p.boost} }
throttle-body:
  quantity: 1
  bores: { quantity: 4, diameter: 44 mm }
  injectors: { quantity: 4, static-flow: ${p.staticFlow}, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms, firing: twice-per-cycle }
ignition: { coil: { resistance: 0.6 ohm, inductance: 4 mH, working-current: 5.5 A } }
fuel-system:
  tank: { capacity: ${p.tankCapacity}, cap-pressure: ${p.capPressure}, return-port: true }
  pump:
    placement: external
    flow-at: [[30 psi, 300 L/h], [45 psi, 270 L/h], [60 psi, 235 L/h], [75 psi, 190 L/h], [90 psi, 120 L/h]]
    rated-voltage: 13.5 V
    current: 11 A
    height-above-outlet: ${p.height}
    distance: 0.5 m
    required-suction-head: 0.3 m
  suction: { inside-diameter: 12 mm, length: ${p.suctionLength} }
  feed: { inside-diameter: ${p.feedDiameter}, length: ${p.feedLength} }
  return: { inside-diameter: ${p.returnDiameter}, length: 5 m }
  regulator: { pressure: ${p.setPressure}, reference: atmosphere, style: bypass }
electrical:
  charging-voltage: ${p.dwellVoltage}
  pump-circuit: { wire: ${p.wire}, length: 5 m }
`;
}
