import type { StageRule } from '../../checking/rule.ts';

/** How many times as long as the other one of feed and return may be. Common practice, from memory. */
const MOST = 3;

const FEED = 'fuel-system.feed.length';
const RETURN = 'fuel-system.return.length';

export const rule: StageRule = {
  id: 'fuel-supply/line-lengths-apart',
  title: 'Feed and return are not of like length',
  severity: 'information',
  why: 'Feed and return run between the same two places, tank and engine. Where one is written down many times as long as the other, a digit has slipped or a part of the line was not counted, and its pressure drop is wrong with it.',
  inspect: 'Follow both lines from the tank to the engine with a tape.',
  remedy: 'Measure both and correct the one that is wrong; where it is really so, accept the finding and say why.',
  source: 'common practice, from memory',
  check: ({ values, show }) => {
    const { feed, return: back } = values['fuel-system'] ?? {};
    const [out, home] = [feed?.length, back?.length];
    if (!out || !home || Math.max(out.value, home.value) <= MOST * Math.min(out.value, home.value)) return undefined;
    const isFeedShort = out.value < home.value;
    return {
      at: isFeedShort ? FEED : RETURN,
      message: `The feed line is ${show(out)} long, the return ${show(home)}, though both run between tank and engine.`,
      related: [{ at: isFeedShort ? RETURN : FEED, message: 'The other line.' }],
      repairs: [
        { title: 'Take the length of the return for the feed', set: { [FEED]: home.text } },
        { title: 'Take the length of the feed for the return', set: { [RETURN]: out.text } },
      ],
    };
  },
};
