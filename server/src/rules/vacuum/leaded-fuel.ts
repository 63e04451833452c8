import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/leaded-fuel',
  title: 'Leaded fuel with an oxygen sensor',
  severity: 'warning',
  why: 'Lead coats the oxygen sensor: its reading drifts within a few tanks, long before it fails. The computer then trims the fuel by a wrong reading.',
  inspect: 'Ask at the pump or read the drum. A sensor with a gray, shiny tip has seen lead.',
  remedy: 'Run unleaded fuel of the same octane, or tune without closed loop and count the sensor as a wearing part.',
  source: 'common practice, from memory',
  check: ({ values }) => {
    if (!values.fuel?.leaded || !values.sensors?.oxygen) return undefined;
    return {
      at: 'fuel.leaded',
      message: 'Leaded fuel ruins the oxygen sensor that the computer trims the fuel by.',
      related: [{ at: 'sensors.oxygen', message: 'The oxygen sensor.' }],
      repairs: [{ title: 'Run unleaded fuel of the same octane', set: { 'fuel.leaded': false } }],
    };
  },
};
