import { gaugeAtEmpty, gaugeAtFull } from '../../analysis/gauge.ts';
import type { Draft, StageRule } from '../../checking/rule.ts';

/** What the gauge may show when the tank is empty, and what it must show when it is full. Common practice, from memory. */
const MOST_AT_EMPTY = 0.1;
const LEAST_AT_FULL = 0.85;
const MOST_AT_FULL = 1.2;
const LEAST_AT_EMPTY = -0.15;

export const rule: StageRule = {
  id: 'fuel-supply/sender-not-of-gauge',
  title: 'Sender of the tank does not go with the gauge',
  severity: 'warning',
  why: 'A tank module brings a sender of its own, and senders come with several ranges of resistance, some of them the other way round. A gauge that shows fuel where there is none lets the pump run dry: it is burned within minutes, in the fast lane.',
  inspect:
    'Ohmmeter at the sender, float down and up; then known resistors in place of the sender, and read the needle.',
  remedy:
    'A sender of the range of the gauge, a gauge of the range of the sender, or a converter between them that is made for it.',
  source: 'linear between the ends of the gauge; 10 and 85 % are common practice, from memory',
  check: ({ values, see, show }) => {
    const given = values['fuel-system']?.['gauge-sender'];
    if (!given) return undefined;
    const [empty, full] = [see(gaugeAtEmpty), see(gaugeAtFull)];
    const to = (end: 'empty' | 'full') => given[`gauge-${end}`]?.text ?? null;
    const drafts: Draft[] = [];
    if (empty && (empty.value > MOST_AT_EMPTY || empty.value < LEAST_AT_EMPTY))
      drafts.push({
        at: 'fuel-system.gauge-sender.sender-empty',
        message: `With an empty tank the gauge shows ${show(empty)} of its scale: take a sender that goes with it, or the pump runs dry.`,
        excess: Math.abs(empty.value),
        related: [{ at: 'fuel-system.gauge-sender.gauge-empty', message: 'What the gauge wants at empty.' }],
        repairs: [
          {
            title: `Take a sender of ${to('empty')} when empty`,
            set: { 'fuel-system.gauge-sender.sender-empty': to('empty') },
          },
        ],
      });
    if (full && (full.value < LEAST_AT_FULL || full.value > MOST_AT_FULL))
      drafts.push({
        at: 'fuel-system.gauge-sender.sender-full',
        message: `With a full tank the gauge shows ${show(full)} of its scale: take a sender that goes with it.`,
        excess: Math.abs(1 - full.value),
        related: [{ at: 'fuel-system.gauge-sender.gauge-full', message: 'What the gauge wants at full.' }],
        repairs: [
          {
            title: `Take a sender of ${to('full')} when full`,
            set: { 'fuel-system.gauge-sender.sender-full': to('full') },
          },
        ],
      });
    return drafts;
  },
};
