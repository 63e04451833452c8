import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'plan/tank-not-kept',
  title: 'Another tank against the wish to keep it',
  severity: 'warning',
  why: 'The customer wants to keep the tank that is in the car, and the sheet buys another. Most conversions work with the old tank: an external pump, a pump module let into it, or a surge tank beside it.',
  inspect: 'Ask what the wish is about: the money, the look, or the work on the tank.',
  remedy: 'Take the other tank out of the sheet and describe the one in the car, or ask again about the wish.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    if (values.wishes?.['keep-tank'] !== true) return undefined;
    const tank = values['fuel-system']?.tank;
    if (!tank) return undefined;
    const bought = tank.use !== undefined ? 'use' : tank.cost !== undefined ? 'cost' : undefined;
    if (!bought) return undefined;
    return {
      at: `fuel-system.tank.${bought}`,
      message: 'The customer wants to keep the tank that is in the car, and this is another one that is bought.',
      related: [{ at: 'wishes.keep-tank', message: 'The wish.' }],
    };
  },
};
