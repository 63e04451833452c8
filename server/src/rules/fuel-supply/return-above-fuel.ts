import { returnFlow } from '../../analysis/supply.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/return-above-fuel',
  title: 'The return line ends above the fuel',
  severity: 'warning',
  why: 'Fuel that falls through air foams, drives off vapor and charges the tank with static electricity; the foam reaches the pickup and the vapor overloads the vent. Lead the return under the surface, away from the pickup.',
  inspect: 'See where the return ends in the tank: at the filler neck and at the top plate it falls into the fuel.',
  remedy:
    'Lead it down a tube below the surface, away from the pickup, with a small hole at the top of the tube so that it cannot siphon.',
  source: 'common practice; SAE J1645 for static charge in fuel systems, from memory',
  cautions: ['used-tank'],
  check: ({ values, see, show }) => {
    if (values['fuel-system']?.tank?.['return-entry'] !== 'above-fuel') return undefined;
    const flow = see(returnFlow);
    return {
      at: 'fuel-system.tank.return-entry',
      message: flow
        ? `At idle ${show(flow)} falls into the tank from above the fuel and aerates it.`
        : 'The returning fuel falls into the tank from above the fuel and aerates it.',
      repairs: [
        {
          title: 'Lead the return below the surface, away from the pickup',
          set: { 'fuel-system.tank.return-entry': 'below-fuel' },
        },
      ],
    };
  },
};
