import { pumpDelivery, suctionVelocity } from '../../analysis/supply.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { boreForVelocity } from '../../engineering/lines.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { marginMiss } from '../../remedies/suction-side.ts';

export const rule: StageRule = {
  id: 'fuel-supply/suction-velocity',
  title: 'The suction line is too thin',
  severity: 'warning',
  capacity: true,
  why: 'Ahead of the pump there is only the air pressure to move the fuel: a fast stream through a thin line lowers the pressure at the inlet, and warm fuel turns to vapor there. The pump whines, wears and loses flow.',
  inspect:
    'Measure the bore of the suction line and of the tank outlet; the outlet of a carburetor tank is often the narrowest.',
  remedy: 'Run the suction line one or two sizes wider than the feed, tank outlet included.',
  source: 'common practice: about 1 m/s',
  check: (situation) => {
    const { values, see, limit, compare } = situation;
    const bore = values['fuel-system']?.suction?.['inside-diameter'];
    const speed = see(suctionVelocity);
    const most = limit('suction-velocity');
    const miss = above(speed, most);
    if (!bore || !speed || !miss || marginMiss(situation)) return undefined;
    const shown = compare(speed, most);
    const flow = see(pumpDelivery);
    return {
      at: 'fuel-system.suction.inside-diameter',
      message: `The suction line of ${bore.text} is thin: the fuel runs at ${shown.value} through it, over the limit of ${shown.limit}.`,
      related: [{ at: 'fuel-system.pump', message: 'Its whole delivery passes here.' }],
      ...miss,
      repairs: boresAbove(bore, flow && boreForVelocity(flow.value, most))
        .slice(0, 2)
        .map((wider) => ({
          title: `Run a suction line of ${wider}`,
          set: { 'fuel-system.suction.inside-diameter': wider },
          shows: suctionVelocity,
        })),
    };
  },
};
