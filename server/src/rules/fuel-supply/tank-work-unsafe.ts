import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/tank-work-unsafe',
  title: 'Work on a tank that still holds vapor',
  severity: 'error',
  why: 'A tank that was emptied is more dangerous than a full one: what is left on its walls and in its seams fills it with vapor that one spark of a drill or a torch sets off. Rinsing does not take it away. People die of this every year.',
  inspect:
    'Ask whether the tank ever held fuel. If it did, it is unsafe until a gas meter shows none inside, again right before the work and while it goes on.',
  remedy:
    'Take a new tank, or a hanger that drops into an opening it has. Otherwise a shop equipped for it empties, cleans, purges and measures the tank, and does the cutting or welding itself, by local codes.',
  source: 'AWS F4.1 and 29 CFR 1910.252, from memory; common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const tank = values['fuel-system']?.tank;
    if (tank?.work !== 'drilled' && tank?.work !== 'welded') return undefined;
    const { work, state } = tank;
    if (state !== 'emptied' && state !== 'in-use') return undefined;
    return {
      at: 'fuel-system.tank.work',
      message: `The tank is to be ${work}, but ${state === 'emptied' ? 'it was only emptied' : 'fuel is in it'}: vapor in it explodes from one spark. Have it purged and measured by a shop equipped for it, or take parts that need no ${work === 'welded' ? 'welding' : 'drilling'}.`,
      related: [{ at: 'fuel-system.tank.state', message: 'What was done about the vapor.' }],
      repairs: [
        { title: 'Take parts that go through an opening the tank has', set: { 'fuel-system.tank.work': 'none' } },
      ],
    };
  },
};
