import { railPressureSet } from '../../analysis/regulator.ts';
import { feedLoss, feedVelocity, pumpOutletPressure } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { wayTooNarrow } from '../../remedies/rail-sag.ts';

/** Share of the set pressure that a feed line may take. Common practice, from memory. */
const MOST = 0.25;

export const rule: StageRule = {
  id: 'fuel-supply/feed-takes-pressure',
  title: 'The feed line takes a good part of the pressure',
  severity: 'warning',
  capacity: true,
  why: 'What the feed line loses the pump must add to the set pressure. It then works far up its curve, where it gives less, draws more, runs hot and wears, and a little dirt or a few tenths of a volt less are enough for the rail pressure to fall at full power.',
  inspect: 'Gauge at the pump and gauge at the rail, full load: the difference is what the way between them costs.',
  remedy: 'Run one size wider the whole way, fittings included.',
  source: 'Darcy-Weisbach with Colebrook; a quarter of the set pressure is common practice, from memory',
  check: (situation) => {
    const { values, see, limit, show } = situation;
    const bore = values['fuel-system']?.feed?.['inside-diameter'];
    const [loss, set] = [see(feedLoss), see(railPressureSet)];
    const miss = set && above(loss, MOST * set.value);
    if (!bore || !miss || wayTooNarrow(situation) || above(see(feedVelocity), limit('feed-velocity'))) return undefined;
    return {
      at: 'fuel-system.feed.inside-diameter',
      message: `At full power the feed line of ${bore.text} takes ${show(loss)} on the way to the ${show(set)} at the regulator: the pump works against ${show(see(pumpOutletPressure))}.`,
      related: [{ at: 'fuel-system.pump', message: 'The pump has to add it.' }],
      ...miss,
      repairs: boresAbove(bore)
        .slice(0, 2)
        .map((wider) => ({
          title: `Run a feed line of ${wider}`,
          set: { 'fuel-system.feed.inside-diameter': wider },
          shows: feedLoss,
        })),
    };
  },
};
