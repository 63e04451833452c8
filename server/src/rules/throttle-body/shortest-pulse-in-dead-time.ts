import { statedDeadTime } from '../../analysis/injectors.ts';
import type { StageRule } from '../../checking/rule.ts';
import { DEAD_TIME_VOLTAGE } from '../../engineering/dead-time.ts';
import { roundedUp } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'throttle-body/shortest-pulse-in-dead-time',
  title: 'Shortest pulse within the dead time',
  severity: 'error',
  why: 'During its dead time an injector delivers nothing, so its shortest useful pulse is longer than that. As written the idle cannot be judged; usually the shortest pulse was given as open time, without the dead time.',
  inspect: 'See how the maker gives the shortest pulse: as the whole pulse, or as open time after the dead time.',
  remedy: 'Write the whole pulse: open time and dead time together.',
  source: 'definition',
  check: ({ values, know, show, showValue }) => {
    const injectors = values['throttle-body']?.injectors;
    const shortest = injectors?.['shortest-pulse'];
    const dead = know(statedDeadTime);
    if (!shortest || dead === undefined || dead < shortest.value) return undefined;
    const whole = roundedUp(shortest.value + dead, shortest);
    return {
      at: 'throttle-body.injectors.shortest-pulse',
      message: `The shortest repeatable pulse of ${show(shortest)} is no longer than the dead time, ${showValue(dead, 'time')} at ${DEAD_TIME_VOLTAGE} V.`,
      related: [
        {
          at: `throttle-body.injectors.${injectors?.['dead-time-at'] ? 'dead-time-at' : 'dead-time'}`,
          message: 'The dead time.',
        },
      ],
      repairs: [
        { title: `Add the dead time to it: ${whole}`, set: { 'throttle-body.injectors.shortest-pulse': whole } },
      ],
    };
  },
};
