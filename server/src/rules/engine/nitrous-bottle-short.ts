import { bottleTime } from '../../analysis/nitrous.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { SHORTEST_BOTTLE_TIME } from '../../engineering/nitrous.ts';
import { roundedUp } from '../../remedies/size.ts';

/** A bottle that lasts this much longer than the shortest time has room for a cool day. Common practice. */
const ROOM = 1.3;

export const rule: StageRule = {
  id: 'engine/nitrous-bottle-short',
  title: 'Bottle that lasts seconds',
  severity: 'information',
  why: 'A bottle that is nearly empty gives gas instead of liquid: the nitrous falls off before its fuel does, in the middle of the run. A quarter mile with its start takes some 15 seconds.',
  inspect: 'Weigh the bottle full and after a run of known length.',
  remedy: 'Take a larger bottle or a smaller shot, and weigh the bottle before each run.',
  source: 'mass balance; 85 % of the charge leaves as liquid and 15 seconds for a run: common practice, from memory',
  cautions: ['nitrous'],
  check: ({ stage, see, show }) => {
    const bottle = stage.nitrous?.bottle;
    if (!bottle) return undefined;
    const time = see(bottleTime);
    const miss = below(time, SHORTEST_BOTTLE_TIME);
    if (!time || !miss) return undefined;
    const larger = roundedUp((bottle.value * SHORTEST_BOTTLE_TIME * ROOM) / time.value, bottle);
    return {
      at: 'stages.nitrous.bottle',
      message: `${show(bottle)} of nitrous last about ${time.value.toFixed(0)} s at ${show(stage.nitrous?.power)}; a run takes some ${SHORTEST_BOTTLE_TIME} s.`,
      related: [{ at: 'stages.nitrous.power', message: 'The shot.' }],
      ...miss,
      repairs: [{ title: `Take a bottle of ${larger}`, set: { 'stages.nitrous.bottle': larger }, shows: bottleTime }],
    };
  },
};
