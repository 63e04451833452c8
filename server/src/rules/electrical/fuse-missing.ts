import { fuseLimit, fuseNeeded } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';
import { bladeUpTo } from '../../remedies/pump-wire.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-missing',
  title: 'Pump circuit without a fuse',
  severity: 'error',
  why: 'A pump wire that chafes through shorts the battery through itself and sets its insulation on fire, next to the fuel line. A fuse close to the battery is the only thing that stops it, and local codes may ask for one.',
  inspect:
    'Follow the feed from the battery post: the fuse belongs within a hand or two of it, ahead of every bend and hole in the sheet metal.',
  remedy:
    'Put a sealed fuse holder close to the battery, with a fuse that carries the pump and still protects the wire.',
  source: 'common practice; blade sizes ISO 8820-3, from memory',
  check: ({ values, see, show, showValue }) => {
    const circuit = values.electrical?.['pump-circuit'];
    if (!circuit?.wire || !circuit.length || circuit.fuse) return undefined;
    const limit = see(fuseLimit);
    const needed = see(fuseNeeded);
    const largest = limit && bladeUpTo(limit.value);
    const rating = needed?.value ?? largest;
    const fits = rating !== undefined && largest !== undefined && rating <= largest;
    return {
      at: 'electrical.pump-circuit',
      message: `No fuse is named for the pump's ${show(circuit.wire)} wire.`,
      repairs: fits
        ? [
            {
              title: `Fuse the circuit with ${showValue(rating, 'current')} close to the battery`,
              set: { 'electrical.pump-circuit.fuse': showValue(rating, 'current') },
            },
          ]
        : [],
    };
  },
};
