import { below, type StageRule } from '../../checking/rule.ts';
import { roundedUp } from '../../remedies/size.ts';

/** Closest a line may come to the exhaust, m, bare and behind a shield. Common practice, from memory. */
const BARE = 0.1016;
const SHIELDED = 0.0508;

export const rule: StageRule = {
  id: 'fuel-supply/line-near-exhaust',
  title: 'Fuel line close to the exhaust',
  severity: 'error',
  why: 'A pipe of the exhaust is hotter than fuel needs to catch fire, and long before that it boils the fuel in the line, so that the engine starves or will not start hot. Hose hardens and cracks near it within a summer.',
  inspect:
    'Follow every line with a tape measure, car on its wheels and in the air: the exhaust moves, and grows with heat.',
  remedy:
    'Move the line; where it cannot be moved, steel tube behind a shield with air on both sides. A sleeve alone is no distance.',
  source: 'common practice, from memory: 4 in bare, 2 in behind a shield',
  check: ({ values, show, compare }) => {
    const routing = values['fuel-system']?.routing;
    const distance = routing?.['exhaust-distance'];
    if (!distance) return undefined;
    const near = below(distance, BARE);
    if (!near) return undefined;
    const isShielded = routing['heat-shield'];
    if (isShielded === undefined) return undefined;
    const limit = isShielded ? SHIELDED : BARE;
    const miss = below(distance, limit);
    if (!miss) return undefined;
    const least = roundedUp(limit, distance);
    const shown = compare(distance, limit);
    return {
      at: 'fuel-system.routing.exhaust-distance',
      message: `A fuel line is ${shown.value} from the exhaust${isShielded ? ' behind a shield' : ' without a shield'}; it needs ${shown.limit} at least.`,
      ...miss,
      repairs: [
        { title: `Move the line ${least} away or more`, set: { 'fuel-system.routing.exhaust-distance': least } },
        ...(isShielded || below(distance, SHIELDED)
          ? []
          : [
              {
                title: `Keep it at ${show(distance)}, in steel tube behind a shield`,
                set: { 'fuel-system.routing.heat-shield': true },
              },
            ]),
      ],
    };
  },
};
