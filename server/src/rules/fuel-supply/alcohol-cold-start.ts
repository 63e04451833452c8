import { coldVaporRatio } from '../../analysis/cold-start.ts';
import { field } from '../../analysis/node.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { leanStart } from '../../engineering/boiling.ts';

const statedColdest = field('site.coldest', 'T_cold');

export const rule: StageRule = {
  id: 'fuel-supply/alcohol-cold-start',
  title: 'Neat alcohol does not light on a cold morning',
  severity: 'warning',
  why: 'Neat alcohol hardly evaporates when it is cold: whatever the injectors add stays wet, and too little vapor is left for a spark to light. The engine cranks until the battery is flat, and the liquid fuel washes the oil off the cylinders.',
  inspect: 'Try it: a cold soak outdoors at the lowest temperature it must start at.',
  remedy:
    'Start on gasoline from a small tank of its own, heat coolant and intake before the start, or take a blend with some gasoline. A car that never meets the frost needs nothing: write down the coldest day it starts on.',
  source: 'vapor pressure by Antoine; lean limit: lower flammability limits over stoichiometric, from memory',
  cautions: ['used-tank'],
  check: ({ values, see, know, show }) => {
    const miss = below(see(coldVaporRatio), leanStart.value);
    if (!miss || know(statedColdest) === undefined) return undefined;
    const coldest = values.site?.coldest;
    return {
      at: 'fuel.grade',
      message: `On a morning of ${show(coldest)} the vapor of this fuel is ${show(see(coldVaporRatio))} of what the air can burn, and under about ${leanStart.value} nothing lights: it starts by other means or not at all.`,
      related: [{ at: 'site.coldest', message: 'So cold.' }],
      day: 'the coldest, lowest day',
      ...miss,
    };
  },
};
