import { RATED_VOLTAGE } from '../../analysis/fuel-network.ts';
import type { StageRule } from '../../checking/rule.ts';
import type { Points } from '../../units/quantity.ts';

/** Share of the electric power that the best pumps turn into pressure times flow. From memory: most make 15 to 30 %. */
const MOST = 0.6;

export const rule: StageRule = {
  id: 'fuel-supply/pump-current-too-small',
  title: 'The pump draws less than its work takes',
  severity: 'warning',
  why: 'Pressure times flow is power, and the motor must draw several times as much from the battery. A current that is too small by this is a wrong digit or that of another pump; wire, fuse and alternator chosen by it are too small.',
  inspect: 'Clamp meter on the feed wire of the running pump at working pressure.',
  remedy: "The current from the maker's chart at working pressure, or the one that was measured.",
  source: 'energy balance; the efficiency is common practice, from memory',
  check: ({ values, show }) => {
    const pump = values['fuel-system']?.pump;
    const [current, curve] = [pump?.current, pump?.['flow-at'] as Points | undefined];
    if (!current || !curve) return undefined;
    const drawn = current.value * (pump?.['rated-voltage']?.value ?? RATED_VOLTAGE);
    const work = curve.map(([pressure, flow]) => ({ pressure, flow, power: pressure.value * flow.value }));
    const most = work.reduce((one, other) => (other.power > one.power ? other : one));
    if (most.power <= drawn * MOST) return undefined;
    return {
      at: 'fuel-system.pump.current',
      message: `${show(most.flow)} against ${show(most.pressure)} are ${Math.round(most.power)} W of work on the fuel; with ${show(current)} the pump draws ${Math.round(drawn)} W.`,
      related: [{ at: 'fuel-system.pump.flow-at', message: 'What it delivers.' }],
      excess: most.power / drawn - MOST,
      repairs: [{ title: 'Leave the current out until it is known', remove: ['fuel-system.pump.current'] }],
    };
  },
};
