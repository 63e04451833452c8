import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/key-feed-drops',
  title: "Computer's switched feed is not live in run and start",
  severity: 'error',
  why: 'The computer restarts each time its switched wire drops: it then neither fuels nor sparks, and the pump stops. Many ignition switches cut their accessory feeds while cranking, so measure the wire with the starter turning.',
  inspect:
    'Meter on the switched wire of the computer, key in run, then while cranking. It must stay live in both; measure, do not go by the color.',
  remedy: 'Move the wire to a terminal that is live in run and while cranking, or switch it by a relay fed from both.',
  source: 'common practice',
  check: ({ values }) => {
    const feed = values.electrical?.['key-feed'];
    if (feed !== 'run-only' && feed !== 'start-only') return undefined;
    return {
      at: 'electrical.key-feed',
      message:
        feed === 'run-only'
          ? "The computer's switched feed drops while cranking, so the engine will not start, or only as the key is let go."
          : "The computer's switched feed is live only while cranking, so the engine dies as the key is let go.",
      repairs: [
        {
          title: 'Connect the switched wire where it is live in run and while cranking',
          set: { 'electrical.key-feed': 'run-and-start' },
        },
      ],
    };
  },
};
