import {
  engineBuild,
  leastPressure,
  mostOfMildCam,
  mostPressure,
  usualPressure,
} from '../analysis/believable-power.ts';
import { impliedVolumetricEfficiency, meanEffectivePressure } from '../analysis/demand.ts';
import { camDuration } from '../analysis/engine.ts';
import type { Estimate } from '../analysis/figure.ts';
import { nitrousEnergy } from '../analysis/knock.ts';
import type { FigureNode } from '../analysis/node.ts';
import { above, below, type Repair, type Situation } from '../checking/rule.ts';
import type { Build } from '../engineering/bmep.ts';
import { inductionDefaults } from '../engineering/demand.ts';
import { roundedDown } from './size.ts';

/** Natural induction and boost contradict each other, which is told by itself. */
function isContradicted({ induction, stage }: Situation): boolean {
  return induction === 'natural' && Boolean(stage.boost?.value);
}

/** Mean effective pressure of the engine itself: what nitrous adds, which is no claim of the engine, taken off. */
function ownPressure({ see }: Situation): Estimate | undefined {
  const figure = see(meanEffectivePressure);
  const energy = see(nitrousEnergy)?.value ?? 1;
  if (!figure || energy === 1) return figure;
  const { name, dimension, value, low = value, high = value } = figure;
  return { name, dimension, value: value / energy, low: low / energy, high: high / energy };
}

/** The figure that puts the claim furthest out of reach, with the most it can be; nothing for a believable claim. */
export function outOfReach(situation: Situation) {
  const { see, know, induction, stage } = situation;
  if (isContradicted(situation)) return undefined;
  const { bsfc } = inductionDefaults[induction];
  const leanest = stage['specific-consumption'] ? 1 : bsfc.usual / bsfc.low;
  const natural = inductionDefaults.natural.volumetricEfficiency;
  const bounds: [FigureNode, number | undefined][] = [
    [meanEffectivePressure, see(mostPressure)?.value],
    [impliedVolumetricEfficiency, natural.high * leanest],
  ];
  const beyond = bounds.flatMap(([node, most]) => {
    const figure = node === meanEffectivePressure ? ownPressure(situation) : see(node);
    const miss = most === undefined ? undefined : above(figure, most);
    return figure && miss && most ? [{ node, figure, most, miss }] : [];
  });
  if (beyond.length === 0 && needsLongCam(situation)) know(camDuration);
  return beyond.toSorted((one, other) => other.figure.value / other.most - one.figure.value / one.most)[0];
}

/** Whether a natural claim is believed only of an engine with a long cam. */
function needsLongCam(situation: Situation): boolean {
  const { know, induction } = situation;
  const most = know(mostOfMildCam);
  return induction === 'natural' && most !== undefined && above(ownPressure(situation), most) !== undefined;
}

/** A claim far below what such an engine makes, with the least that is believed. */
export function underReach(situation: Situation) {
  const { see } = situation;
  const [figure, least] = [ownPressure(situation), see(leastPressure)];
  if (!figure || !least || isContradicted(situation)) return undefined;
  const miss = below(figure, least.value);
  return miss && { figure, least: least.value, miss };
}

const BUILDS: Readonly<Record<Build, string>> = {
  mild: 'an engine with a mild cam',
  'long-cam': 'an engine with a long cam',
  racing: 'a racing engine',
};

/** The engine by its cam and boost, in words. */
export function engineInWords({ know, induction, stage }: Situation): string {
  const build = know(engineBuild);
  const engine = build ? BUILDS[build] : 'any engine';
  if (induction === 'natural') return build ? engine : `${engine} without a blower`;
  return stage.boost ? `${engine} at ${stage.boost.text} of boost` : `${engine} with ${induction} induction`;
}

/** The power that is usual for such an engine, not the most or least of it. */
export function claimUsual(situation: Situation): Repair[] {
  const { see, stage } = situation;
  const [figure, usual] = [ownPressure(situation), see(usualPressure)];
  if (!figure || !usual || !stage.power) return [];
  const power = roundedDown((stage.power.value * usual.value) / figure.value, stage.power);
  return [
    {
      title: `Claim ${power}, usual for such an engine`,
      set: { 'stages.power': power },
      shows: meanEffectivePressure,
    },
  ];
}
