import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { bladeFuses } from '../../engineering/fuses.ts';
import { sizeAbove, sizeBelow } from '../../engineering/series.ts';
import { type Circuit, circuitsOf } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-not-stocked',
  title: 'No blade fuse of this rating',
  severity: 'hint',
  why: 'Whoever replaces this fuse at the roadside will not find one of this rating and will plug in the next size up. A rating every parts store carries gets replaced by the same one.',
  inspect: 'Look at the number on the fuse and at its holder; some holders take only one style of blade.',
  remedy: 'Fit the nearest stocked rating that carries the load and still protects the wire.',
  source: 'ISO 8820-3, blade fuse-links of types C, E and F; sizes from memory',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => unheardOf(circuit, situation)),
};

function unheardOf({ figures, fields: { fuse }, path }: Circuit, { see, show, showValue }: Situation): Draft[] {
  const largest = bladeFuses.at(-1) as number;
  if (!fuse || fuse.value > largest || bladeFuses.some((size) => Math.abs(size - fuse.value) < 0.01)) return [];
  const least = see(figures.fuseNeeded)?.value ?? 0;
  const most = see(figures.fuseLimit)?.value ?? largest;
  const nearest = [sizeBelow(bladeFuses, fuse.value), sizeAbove(bladeFuses, fuse.value)];
  const fitting = nearest.filter((size) => size !== undefined && size >= least && size <= most) as number[];
  return [
    {
      at: `${path}.fuse`,
      message: `Blade fuses do not come in ${show(fuse)}.`,
      repairs: fitting.map((size) => ({
        title: `Fit a fuse of ${showValue(size, 'current')}`,
        set: { [`${path}.fuse`]: showValue(size, 'current') },
      })),
    },
  ];
}
