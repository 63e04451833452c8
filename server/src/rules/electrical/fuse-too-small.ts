import { fuseNeeded, pumpCircuitCurrent } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { isWireTooThin } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-too-small',
  title: 'Fuse too small for the pump',
  severity: 'warning',
  capacity: true,
  why: 'A fuse that runs near its rating ages and opens one day without a fault, and the engine dies under load. The reserve also covers the pump starting and a filter that clogs, which both raise its current.',
  inspect:
    'Clamp meter on the pump wire at working pressure, fuel warm. The current should stay under four fifths of the fuse.',
  remedy:
    'Fit the next larger fuse that the wire allows. If the pump draws more than its flow sheet says, look for a clogged filter or a worn pump first.',
  source: 'common practice: 80 % of the rating; sizes ISO 8820-3, from memory',
  check: (situation) => {
    const { values, see, limit, show, showValue } = situation;
    const fuse = values.electrical?.['pump-circuit']?.fuse;
    const needed = see(fuseNeeded);
    const current = see(pumpCircuitCurrent);
    if (!fuse || !needed || !current) return undefined;
    const share = limit('fuse-share');
    const carries = fuse.value * share;
    if (current.value <= carries * (1 + 1e-9) || isWireTooThin(situation)) return undefined;
    const larger = showValue(needed.value, 'current');
    return {
      at: 'electrical.pump-circuit.fuse',
      message: `The pump circuit draws ${show(current)} all the time; a fuse of ${show(fuse)} should carry no more than ${showValue(share, 'ratio')} of its rating, ${showValue(carries, 'current')}.`,
      related: [{ at: 'fuel-system.pump.current', message: 'Current of one pump.' }],
      excess: current.value - carries,
      repairs: [{ title: `Fit a fuse of ${larger}`, set: { 'electrical.pump-circuit.fuse': larger } }],
    };
  },
};
