import { impliedVolumetricEfficiency, meanEffectivePressure } from '../analysis/demand.ts';
import type { FigureNode } from '../analysis/node.ts';
import { above, type Situation } from '../checking/rule.ts';
import { inductionDefaults } from '../engineering/demand.ts';

/** The figure that puts the claim furthest out of reach, with the most it can be; nothing for a believable claim. */
export function outOfReach({ see, induction, stage }: Situation) {
  if (induction === 'natural' && stage.boost?.value) return undefined;
  const { bmep, bsfc } = inductionDefaults[induction];
  const leanest = stage['specific-consumption'] ? 1 : bsfc.usual / bsfc.low;
  const natural = inductionDefaults.natural.volumetricEfficiency;
  const bounds: [FigureNode, number][] = [
    [meanEffectivePressure, bmep.high],
    [impliedVolumetricEfficiency, natural.high * leanest],
  ];
  const beyond = bounds.flatMap(([node, most]) => {
    const figure = see(node);
    const miss = above(figure, most);
    return figure && miss ? [{ node, figure, most, miss }] : [];
  });
  return beyond.toSorted((one, other) => other.figure.value / other.most - one.figure.value / one.most)[0];
}
