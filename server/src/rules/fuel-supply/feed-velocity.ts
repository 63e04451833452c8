import { feedVelocity, pumpDelivery } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { boreForVelocity } from '../../engineering/lines.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { wayTooNarrow } from '../../remedies/rail-sag.ts';

export const rule: StageRule = {
  id: 'fuel-supply/feed-velocity',
  title: 'The feed line is too thin for the flow',
  severity: 'warning',
  capacity: true,
  why: 'The pressure drop rises with about the square of the speed, so a thin line makes the pump work harder, hotter and louder for nothing. Fast fuel also hammers when the injectors close, and the rail pressure pulses with it.',
  inspect: 'Measure the bore of hose, fittings and hard line; the narrowest counts, often a fitting.',
  remedy: 'Run one size wider the whole way, fittings included.',
  source: 'common practice: about 3 m/s',
  check: (situation) => {
    const { values, see, limit, compare } = situation;
    const bore = values['fuel-system']?.feed?.['inside-diameter'];
    const speed = see(feedVelocity);
    const most = limit('feed-velocity');
    const miss = above(speed, most);
    if (!bore || !speed || !miss || wayTooNarrow(situation)?.part === 'feed') return undefined;
    const shown = compare(speed, most);
    const flow = see(pumpDelivery);
    return {
      at: 'fuel-system.feed.inside-diameter',
      message: `The feed line of ${bore.text} is thin: the fuel runs at ${shown.value} through it, over the limit of ${shown.limit}.`,
      related: [{ at: 'fuel-system.pump', message: 'Its whole delivery passes here.' }],
      ...miss,
      repairs: boresAbove(bore, flow && boreForVelocity(flow.value, most))
        .slice(0, 2)
        .map((wider) => ({
          title: `Run a feed line of ${wider}`,
          set: { 'fuel-system.feed.inside-diameter': wider },
          shows: feedVelocity,
        })),
    };
  },
};
