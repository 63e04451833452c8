import { above, type StageRule } from '../../checking/rule.ts';
import { highestIdle, usualIdle } from '../../remedies/idle-speed.ts';
import { roundedDown } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'engine/idle-too-high',
  title: 'Idle higher than any engine needs',
  severity: 'warning',
  why: 'At that speed the car pulls against its brakes, the clutch or converter heats, and the throttle plates stand so far open that the injectors look small enough to idle when they are not. Usually somebody wrote down the cold fast idle, or it is a typo.',
  inspect: 'Read the tachometer at warm idle, nothing touching the pedal, no vacuum leak.',
  remedy: 'Write down the warm idle. If it really idles there, look for the leak or the plate that hangs open.',
  source: 'common practice, from memory: highest idle by cam duration at 0.050 in',
  check: ({ values, show }) => {
    const { idle, 'cam-duration': duration } = values.engine ?? {};
    const miss = above(idle, highestIdle(duration?.value));
    if (!idle || !miss) return undefined;
    const usual = roundedDown(usualIdle(duration?.value) * (1 + 1e-9), idle);
    return {
      at: 'engine.idle',
      message: `An idle of ${show(idle)} is higher than any engine needs${duration ? ` with a cam of ${show(duration)}` : ''}; about ${usual} is usual.`,
      related: duration ? [{ at: 'engine.cam-duration', message: 'The cam.' }] : [],
      ...miss,
      repairs: [{ title: `Let it idle at ${usual}`, set: { 'engine.idle': usual } }],
    };
  },
};
