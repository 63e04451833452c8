import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { referencedRegulator } from '../../remedies/referenced-regulator.ts';

const BLOWERS = {
  turbo: 'Say that a turbocharger makes it',
  centrifugal: 'Say that a centrifugal blower makes it',
  roots: 'Say that a roots blower makes it',
} as const;

export const rule: StageRule = {
  id: 'engine/boost-without-blower',
  title: 'Boost without a blower or turbo',
  severity: 'error',
  why: 'Boost counts only where a compressor makes it. As written, sensor range, pressure across the injectors, pump and knock are all checked as if this engine were naturally aspirated; on the road that means lean under boost.',
  inspect: 'See what sits on the engine in this stage: a roots case, a belt-driven compressor, a turbo, or nothing.',
  remedy: 'Name the kind of compressor, or take the boost out of this stage.',
  source: 'definition',
  check: (situation) => {
    const { stage, show } = situation;
    if (!stage.boost?.value || (stage.induction ?? 'natural') !== 'natural') return undefined;
    return {
      at: 'stages.boost',
      message: `${show(stage.boost)} of boost is written down, but ${stage.induction ? 'the induction is natural' : 'no blower or turbo is named'}.`,
      ...(stage.induction ? { related: [{ at: 'stages.induction', message: 'No compressor here.' }] } : {}),
      repairs: [...blowers(situation), { title: 'Take the boost out of this stage', remove: ['stages.boost'] }],
    };
  },
};

/** The blower of the stage before first, only a roots blower under a roots case. */
function blowers({ plan, index, values }: Situation): Repair[] {
  const before = plan[index - 1]?.stage.induction;
  const kinds = Object.keys(BLOWERS) as (keyof typeof BLOWERS)[];
  const fitting = values.engine?.intake?.manifold === 'roots-plenum' ? (['roots'] as const) : kinds;
  return fitting
    .toSorted((one, other) => Number(other === before) - Number(one === before))
    .map((kind) => {
      const reference = kind === 'roots' ? {} : referencedRegulator(values);
      const isChanged = Object.keys(reference).length > 0;
      return {
        title: `${BLOWERS[kind]}${isChanged ? ', and reference the regulator to the manifold' : ''}`,
        set: { 'stages.induction': kind, ...reference },
      };
    });
}
