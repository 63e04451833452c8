import { fuseLimit, fuseNeeded } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { bladeFuses } from '../../engineering/fuses.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-not-stocked',
  title: 'No blade fuse of this rating',
  severity: 'hint',
  why: 'Whoever replaces this fuse on the road finds none of its rating and takes the next larger one. A rating that every shop stocks is replaced by the same.',
  inspect: 'Look at the number on the fuse and at its holder; some holders take only one style of blade.',
  remedy: 'Fit the nearest stocked rating that carries the pump and still protects the wire.',
  source: 'ISO 8820-3, blade fuse-links of types C, E and F; sizes from memory',
  check: ({ values, see, show, showValue }) => {
    const fuse = values.electrical?.['pump-circuit']?.fuse;
    const largest = bladeFuses.at(-1) as number;
    if (!fuse || fuse.value > largest || bladeFuses.some((size) => Math.abs(size - fuse.value) < 0.01))
      return undefined;
    const least = see(fuseNeeded)?.value ?? 0;
    const most = see(fuseLimit)?.value ?? largest;
    const up = bladeFuses.find((size) => size > fuse.value);
    const down = bladeFuses.findLast((size) => size < fuse.value);
    const fitting = [down, up].filter((size) => size !== undefined && size >= least && size <= most);
    return {
      at: 'electrical.pump-circuit.fuse',
      message: `Blade fuses do not come in ${show(fuse)}.`,
      repairs: fitting.map((size) => ({
        title: `Fit a fuse of ${showValue(size as number, 'current')}`,
        set: { 'electrical.pump-circuit.fuse': showValue(size as number, 'current') },
      })),
    };
  },
};
