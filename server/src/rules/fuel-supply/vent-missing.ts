import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/vent-missing',
  title: 'The tank has no vent',
  severity: 'error',
  why: 'A tank that cannot breathe starves the pump and then collapses; on a hot day returned fuel puts it under pressure instead. A roll-over valve keeps the fuel in when the car lies on its side. The local authority decides where a vapor canister is asked for.',
  inspect:
    'Open the filler cap after a drive: a hiss is a vent that does not work. See whether the cap itself is vented.',
  remedy:
    'Vent the tank from its highest point through a roll-over valve to the outside or to a canister, never into the trunk.',
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
          ? 'Nothing is said of a vent in the tank.'
          : 'The tank has no vent, so every gallon burned pulls a vacuum in it.',
      repairs: [{ title: 'Vent the tank through a roll-over valve', set: { 'fuel-system.tank.vent': true } }],
    };
  },
};
