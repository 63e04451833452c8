import type { Draft, StageRule } from '../../checking/rule.ts';
import { LOWEST_NITROUS_SPEED } from '../../engineering/nitrous.ts';

/** Engine speed, rev/s, below which nitrous is let in too early: 2,500 rpm. Common practice, from memory: 2,500 to 3,000 rpm. */
const LEAST_SPEED = 2500 / 60;

export const rule: StageRule = {
  id: 'engine/nitrous-armed-loosely',
  title: 'Nitrous that can flow too early',
  severity: 'warning',
  why: 'Nitrous flows the same at any speed and throttle: the slower the engine turns, the more of it each cycle gets, and at part throttle it meets too little fuel or air. Then rods bend, or the manifold blows up.',
  inspect:
    'Bottle shut, system armed: listen for the solenoids while a helper opens the throttle. They may click only at full throttle, and with the engine running only above the set speed.',
  remedy:
    'A switch at the throttle that closes only at full throttle, and a window switch or the computer for the engine speed, both in series with the arming switch.',
  source: 'common practice, from memory',
  cautions: ['nitrous'],
  check: ({ stage, show, showValue }) => {
    const { nitrous } = stage;
    if (!nitrous) return undefined;
    const drafts: Draft[] = [];
    if (nitrous['full-throttle-only'] === false)
      drafts.push({
        at: 'stages.nitrous.full-throttle-only',
        message: 'The nitrous can flow at part throttle.',
        repairs: [{ title: 'Fit a full-throttle switch', set: { 'stages.nitrous.full-throttle-only': true } }],
      });
    const speed = nitrous['lowest-speed'];
    const usual = showValue(LOWEST_NITROUS_SPEED, 'rotational-speed');
    if (speed && speed.value < LEAST_SPEED)
      drafts.push({
        at: 'stages.nitrous.lowest-speed',
        message: `The nitrous can flow from ${show(speed)} on; ${usual} is usual.`,
        excess: LEAST_SPEED - speed.value,
        repairs: [{ title: `Lock it out below ${usual}`, set: { 'stages.nitrous.lowest-speed': usual } }],
      });
    return drafts;
  },
};
