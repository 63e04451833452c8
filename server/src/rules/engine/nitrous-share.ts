import type { StageRule } from '../../checking/rule.ts';
import { percent } from '../../remedies/percent.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Largest share of the engine's own power that nitrous may add to an engine not built for it. Common practice, from memory. */
const LARGEST_SHARE = 0.5;

/** Share that is advised. Common practice, from memory. */
const CHOSEN_SHARE = 0.4;

export const rule: StageRule = {
  id: 'engine/nitrous-share',
  title: 'A lot of nitrous for this engine',
  severity: 'warning',
  why: 'Nitrous adds its power at once and at low speed too, where cylinder pressure is highest: cast pistons and head gaskets give way first. An engine builder should say what this one stands, and the first shot should be small.',
  inspect:
    'Ask what the pistons, rods and head gaskets are, and look at the jet that is in the plate, not at the name of the kit.',
  remedy: 'Jet it down, or have the engine built for it. Start with the smallest shot.',
  source: 'common practice, from memory',
  cautions: ['nitrous'],
  check: ({ stage, show }) => {
    const added = stage.nitrous?.power;
    if (!added || !stage.power || added.value <= stage.power.value * LARGEST_SHARE) return undefined;
    const less = roundedDown(stage.power.value * CHOSEN_SHARE, added);
    return {
      at: 'stages.nitrous.power',
      message: `${show(added)} of nitrous on an engine of ${show(stage.power)} is ${percent(added.value / stage.power.value)} on top; over ${percent(LARGEST_SHARE)} asks for an engine built for it.`,
      related: [{ at: 'stages.power', message: 'The power of the engine without nitrous.' }],
      repairs: [{ title: `Hold it to ${less}`, set: { 'stages.nitrous.power': less } }],
    };
  },
};
