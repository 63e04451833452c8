import type { StageRule } from '../../checking/rule.ts';

/** Part of the feed line's length that the pump's wire should have at least. Common practice, no source. */
const LEAST = 0.5;

export const rule: StageRule = {
  id: 'electrical/circuit-too-short',
  title: 'Pump wire much shorter than the fuel line beside it',
  severity: 'hint',
  why: 'With the battery under the hood the wire runs as far as the fuel line: from the battery over relay and fuse to the pump. A length counted from the relay alone makes drop and wire look better than they are.',
  inspect: 'Follow the wire: battery, fuse, relay, pump. The length counts from the battery post, one way.',
  remedy:
    'Measure the whole run and write it down; with the battery under the hood it is seldom shorter than the fuel line.',
  source: 'common practice',
  check: ({ values, show }) => {
    const electrical = values.electrical;
    const length = electrical?.['pump-circuit']?.length;
    const feed = values['fuel-system']?.feed?.length;
    if (electrical?.battery?.placement !== 'engine-bay' || !length || !feed || length.value >= feed.value * LEAST)
      return undefined;
    return {
      at: 'electrical.pump-circuit.length',
      message: `The pump's wire is ${show(length)} long and the feed line ${show(feed)}, though the battery is in the engine bay.`,
      related: [{ at: 'fuel-system.feed.length', message: 'Length of the feed line.' }],
      repairs: [{ title: 'Take the length of the feed line', set: { 'electrical.pump-circuit.length': feed.text } }],
    };
  },
};
