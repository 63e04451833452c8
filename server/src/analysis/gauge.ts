import { gaugeReading } from '../engineering/gauge.ts';
import { field, figure, given } from './node.ts';

const AT = 'fuel-system.gauge-sender';

const gauge = {
  empty: field(`${AT}.gauge-empty`, 'R_e'),
  full: field(`${AT}.gauge-full`, 'R_f'),
};

const about = {
  dimension: 'ratio',
  source: 'linear between the ends of the gauge',
  when: given(AT),
} as const;

export const gaugeAtEmpty = figure({
  ...about,
  id: 'gauge-at-empty',
  symbol: 'g_e',
  name: 'what the fuel gauge shows of its scale with an empty tank',
  formula: '(R_s,e - R_e) / (R_f - R_e)',
  home: [AT, `${AT}.sender-empty`],
  from: { sender: field(`${AT}.sender-empty`, 'R_s,e'), ...gauge },
  compute: ({ sender, ...ends }) => gaugeReading(sender, ends),
});

export const gaugeAtFull = figure({
  ...about,
  id: 'gauge-at-full',
  symbol: 'g_f',
  name: 'what the fuel gauge shows of its scale with a full tank',
  formula: '(R_s,f - R_e) / (R_f - R_e)',
  home: [AT, `${AT}.sender-full`],
  from: { sender: field(`${AT}.sender-full`, 'R_s,f'), ...gauge },
  compute: ({ sender, ...ends }) => gaugeReading(sender, ends),
});
