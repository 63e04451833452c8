import type { Draft, StageRule } from '../../checking/rule.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Speed the nitrous is shut off below the redline, rev/s: 200 rpm. Common practice, from memory. */
const BELOW = 200 / 60;

export const rule: StageRule = {
  id: 'engine/nitrous-past-cut',
  title: 'Nitrous flows on at the redline, or without arming',
  severity: 'error',
  why: 'When the computer cuts spark or fuel at the redline and the nitrous flows on, the manifold fills with a charge that the next spark lights: it blows the manifold off. Nitrous that is armed whenever the key is on comes in when nobody expects it.',
  inspect:
    'Bottle shut: watch the solenoids with a test lamp while the engine is run up to the set speed, and with the arming switch off.',
  remedy:
    'A window switch or the computer that shuts it off 200 rpm below the cut, an arming switch with a light and a cover, all in series.',
  source: 'common practice, from memory: 200 rpm below the redline',
  cautions: ['nitrous'],
  check: ({ stage: { nitrous }, values, show }) => {
    if (!nitrous) return undefined;
    const drafts: Draft[] = [];
    const top = nitrous['highest-speed'];
    const redline = top && values.engine?.redline;
    if (top && redline && top.value > (redline.value - BELOW) * (1 + 1e-9)) {
      const to = roundedDown(redline.value - BELOW, redline);
      drafts.push({
        at: 'stages.nitrous.highest-speed',
        message: `The nitrous flows up to ${show(top)}, but the redline is ${show(redline)}: shut it off at ${to}.`,
        excess: top.value - redline.value + BELOW,
        related: [{ at: 'engine.redline', message: 'Where the computer cuts.' }],
        repairs: [{ title: `Shut it off at ${to}`, set: { 'stages.nitrous.highest-speed': to } }],
      });
    }
    if (nitrous['arming-switch'] === false)
      drafts.push({
        at: 'stages.nitrous.arming-switch',
        message: 'The nitrous has no arming switch of its own: fit one with a light.',
        repairs: [{ title: 'Fit an arming switch with a light', set: { 'stages.nitrous.arming-switch': true } }],
      });
    return drafts;
  },
};
