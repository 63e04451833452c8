import type { Repair, StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/surge-tank-not-fed',
  title: 'Nothing keeps the surge tank full',
  severity: 'error',
  why: 'A surge tank holds fuel for a minute or two of full power, and then only what is fed into it counts. Without a feed the high-pressure pump sucks air, the engine cuts out, and a pump that runs dry does not last.',
  inspect: 'Follow the inlet of the surge tank, and see what pumps into it.',
  remedy: 'Feed it with a low-pressure lift pump from the main tank, and lead its overflow back there.',
  source: 'common practice; continuity',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const system = values['fuel-system'];
    const pump = system?.pump;
    if (pump?.placement !== 'surge-tank') return undefined;
    const mechanical = system?.['mechanical-pump'];
    const lift: Repair = {
      title: 'Feed it with an electric lift pump',
      set: { 'fuel-system.pump.fed-by': 'lift-pump' },
    };
    const old: Repair = {
      title: "Feed it with the engine's mechanical pump",
      set: { 'fuel-system.pump.fed-by': 'mechanical-pump', 'fuel-system.mechanical-pump': 'feeds-surge-tank' },
    };
    if (!pump['fed-by']) {
      if (mechanical === 'feeds-surge-tank' || !pump['flow-at']) return undefined;
      return {
        at: 'fuel-system.pump.placement',
        message: 'The pump sits in a surge tank, but nothing is said to keep it full.',
        related: mechanical ? [{ at: 'fuel-system.mechanical-pump', message: 'What became of it.' }] : [],
        repairs: mechanical === 'none' || mechanical === 'removed' ? [lift] : [lift, old],
      };
    }
    if (pump['fed-by'] === 'mechanical-pump' && (mechanical === 'none' || mechanical === 'removed')) {
      return {
        at: 'fuel-system.pump.fed-by',
        message: `A mechanical pump is to keep the surge tank full, but the engine ${mechanical === 'none' ? 'never had one' : 'has none any more'}.`,
        related: [{ at: 'fuel-system.mechanical-pump', message: `It is "${mechanical}".` }],
        repairs: [lift, ...(mechanical === 'removed' ? [old] : [])],
      };
    }
    if (pump['fed-by'] !== 'jet' || system?.regulator?.style !== 'dead-head') return undefined;
    return {
      at: 'fuel-system.pump.fed-by',
      message: 'A jet pump lives from the return flow, but a dead-head regulator returns nothing.',
      related: [{ at: 'fuel-system.regulator.style', message: 'Nothing returns here.' }],
      repairs: [
        lift,
        {
          title: 'Fit a bypass regulator',
          set: {
            'fuel-system.regulator.style': 'bypass',
            ...(system.tank?.['return-port'] === false && { 'fuel-system.tank.return-port': true }),
          },
        },
      ],
    };
  },
};
