import type { Draft, Situation, StageRule } from '../../checking/rule.ts';
import { bladeUpTo, type Circuit, circuitsOf } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/fuse-missing',
  title: 'Circuit without a fuse',
  severity: 'error',
  why: 'A wire that chafes through shorts the battery through itself and sets its insulation on fire, next to the fuel line. A fuse close to the battery is the only thing that stops it, and local codes may ask for one.',
  inspect:
    'Follow the feed from the battery post: the fuse belongs within a hand or two of it, ahead of every bend and hole in the sheet metal.',
  remedy:
    'Put a sealed fuse holder close to the battery, with a fuse that carries the load and still protects the wire.',
  source: 'common practice; blade sizes ISO 8820-3, from memory',
  check: (situation) => circuitsOf(situation).flatMap((circuit) => missing(circuit, situation)),
};

function missing({ figures, fields, noun, path }: Circuit, { see, show, showValue }: Situation): Draft[] {
  if (!fields.wire || !fields.length || fields.fuse) return [];
  const limit = see(figures.fuseLimit);
  const largest = limit && bladeUpTo(limit.value);
  const rating = see(figures.fuseNeeded)?.value ?? largest;
  const fits = rating !== undefined && largest !== undefined && rating <= largest;
  return [
    {
      at: path,
      message: `No fuse is named for the ${noun}'s ${show(fields.wire)} wire.`,
      repairs: fits
        ? [
            {
              title: `Fuse the circuit with ${showValue(rating, 'current')} close to the battery`,
              set: { [`${path}.fuse`]: showValue(rating, 'current') },
            },
          ]
        : [],
    },
  ];
}
