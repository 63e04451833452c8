import type { StageRule } from '../../checking/rule.ts';
import { lowestIdle, usualIdle } from '../../remedies/idle-speed.ts';
import { roundedDown } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'engine/idle-too-low-for-cam',
  title: 'Idle too low for the cam',
  severity: 'warning',
  why: 'A long cam leaves much exhaust in the cylinder at low speed: below its idle the engine hunts and stalls, and the computer chases a mixture that changes from stroke to stroke. More idle speed cures it, not more fuel.',
  inspect:
    'Watch vacuum gauge and tachometer at warm idle: a needle that swings wide says that the engine wants more speed.',
  remedy: 'Raise the idle until vacuum and speed stand still, before anything is done to the fuel.',
  source: 'common practice, from memory: idle speed by cam duration at 0.050 in',
  check: ({ values, show }) => {
    const { idle, 'cam-duration': duration } = values.engine ?? {};
    if (!idle || !duration || idle.value >= lowestIdle(duration.value)) return undefined;
    const usual = roundedDown(usualIdle(duration.value) * (1 + 1e-9), idle);
    return {
      at: 'engine.idle',
      message: `An idle of ${show(idle)} is low for a cam of ${show(duration)} at 0.050 in, which wants about ${usual}.`,
      related: [{ at: 'engine.cam-duration', message: 'The cam.' }],
      excess: lowestIdle(duration.value) - idle.value,
      repairs: [{ title: `Let it idle at ${usual}`, set: { 'engine.idle': usual } }],
    };
  },
};
