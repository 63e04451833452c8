import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/return-above-fuel',
  title: 'The return line ends above the fuel',
  severity: 'warning',
  why: 'Fuel that falls through air foams, drives off vapor and charges the tank with static electricity; the foam reaches the pickup and the vapor overloads the vent. Lead the return under the surface, away from the pickup.',
  source: 'common practice; SAE J1645 for static charge in fuel systems',
  cautions: ['used-tank'],
  check: ({ values, figure, show }) => {
    if (values['fuel-system']?.tank?.['return-entry'] !== 'above-fuel') return undefined;
    const flow = figure('return-flow');
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
