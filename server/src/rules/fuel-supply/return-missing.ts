import { returnBackPressureShare } from '../../analysis/supply.ts';
import type { StageRule } from '../../checking/rule.ts';
import type { NewValue } from '../../sheet/edit.ts';

export const rule: StageRule = {
  id: 'fuel-supply/return-missing',
  title: 'A bypass regulator has no way back to the tank',
  severity: 'error',
  why: 'A bypass regulator holds the pressure by letting the surplus go back to the tank, through a line about as wide as the feed. With nowhere to go the pressure climbs to whatever the pump can make, the engine floods, and hoses and seals get pressure they were not made for.',
  inspect: 'Follow the bypass port of the regulator to the tank.',
  remedy:
    'Run a return line about as wide as the feed into the tank below the surface, away from the pickup. A tank module with a regulator in it needs none.',
  source: 'common practice; continuity',
  cautions: ['used-tank'],
  check: ({ values, show }) => {
    const system = values['fuel-system'];
    const style = system?.regulator?.style;
    const placement = system?.pump?.placement;
    const isInModule = style === 'internal-bypass' && (!placement || placement === 'tank-module');
    if (!style || style === 'dead-head' || isInModule) return undefined;
    const hasPort = system?.tank?.['return-port'];
    const tankRepair: Record<string, NewValue> = hasPort === false ? { 'fuel-system.tank.return-port': true } : {};
    const feed = system?.feed;
    const inModule = {
      title: 'Mount a tank module with its own regulator, so that nothing has to return',
      set: { 'fuel-system.regulator.style': 'internal-bypass', 'fuel-system.pump.placement': 'tank-module' },
    };
    if (system?.return) {
      if (hasPort !== false) return undefined;
      return {
        at: 'fuel-system.tank.return-port',
        message: 'The regulator sends the surplus back, but the tank has no port for the return line.',
        related: [{ at: 'fuel-system.return', message: 'The line that ends nowhere.' }],
        repairs: [{ title: 'Fit a return port to the tank', set: tankRepair }],
      };
    }
    if (!feed) return undefined;
    const bore = feed['inside-diameter'];
    const length = feed.length;
    return {
      at: 'fuel-system.regulator.style',
      message: `The regulator sends the surplus back, but the sheet has no return line${hasPort === false ? ' and no return port in the tank' : ''}.`,
      related: [{ at: 'fuel-system.feed', message: 'The way there; the way back is missing.' }],
      repairs: [
        ...(bore && length
          ? [
              {
                title: `Run a return line of ${show(bore)} beside the feed line`,
                set: {
                  'fuel-system.return': {
                    'inside-diameter': bore.text,
                    length: length.text,
                    ...(feed.material && { material: feed.material }),
                  },
                  ...tankRepair,
                },
                shows: returnBackPressureShare,
              },
            ]
          : []),
        ...(placement === 'in-tank' ? [inModule] : []),
      ],
    };
  },
};
