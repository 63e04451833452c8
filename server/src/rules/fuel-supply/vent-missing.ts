import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/vent-missing',
  title: 'The tank has no vent',
  severity: 'error',
  why: 'A tank that cannot breathe is sucked empty until the pump starves, and on a hot day warm returned fuel puts it under pressure instead. Vent it with a roll-over valve, into a canister where emission rules ask for one; the local authority decides what is allowed.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const tank = values['fuel-system']?.tank;
    const isWritten = tank?.['return-port'] !== undefined && tank['surge-control'] !== undefined;
    if (!tank || tank.vent === true || (tank.vent === undefined && !isWritten)) return undefined;
    return {
      at: tank.vent === undefined ? 'fuel-system.tank' : 'fuel-system.tank.vent',
      message:
        tank.vent === undefined
          ? 'The tank is described, and nothing is said of its vent.'
          : 'The tank has no vent, so every gallon burned pulls a vacuum in it.',
      repairs: [{ title: 'Vent the tank through a roll-over valve', set: { 'fuel-system.tank.vent': true } }],
    };
  },
};
