import type { Draft, StageRule } from '../../checking/rule.ts';

const RELIEF = {
  inside: 'The safety disc of the bottle blows off into the room the bottle is in.',
  none: 'The bottle has no safety disc.',
} as const;

export const rule: StageRule = {
  id: 'engine/nitrous-bottle-unsafe',
  title: 'Bottle loose, or its relief inside the car',
  severity: 'error',
  why: 'A bottle holds 10 lb and more under some 900 psi. Loose, it goes through a seat in a crash; hot, its safety disc blows, and a cabin full of nitrous takes the breath of those in it and feeds any fire. Racing rules ask for a bracket and for a tube to the outside.',
  inspect:
    'Pull at the bottle; look for bolts with large washers or plates under the floor. Follow the tube from the safety disc to where it ends.',
  remedy:
    'A bracket made for the bottle, bolted through the body with backing plates, and the relief tube of its maker to the outside, away from the exhaust. A bottle without a valve and disc that are in date is not filled.',
  source: 'common practice; the rules of the racing body and of the maker hold',
  cautions: ['nitrous'],
  check: ({ stage: { nitrous } }) => {
    if (!nitrous) return undefined;
    const drafts: Draft[] = [];
    if (nitrous.bracket === false)
      drafts.push({
        at: 'stages.nitrous.bracket',
        message: 'No bracket holds the bottle.',
        repairs: [{ title: 'Fit a bracket made for the bottle', set: { 'stages.nitrous.bracket': true } }],
      });
    const { relief } = nitrous;
    if (relief === 'inside' || relief === 'none')
      drafts.push({
        at: 'stages.nitrous.relief',
        message: RELIEF[relief],
        repairs: [
          {
            title:
              relief === 'none'
                ? 'Take a bottle with a safety disc, its tube to the outside'
                : 'Lead the relief to the outside',
            set: { 'stages.nitrous.relief': 'outside' },
          },
        ],
      });
    return drafts;
  },
};
