import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'engine/nitrous-without-fuel-cut',
  title: 'Nitrous that flows on without its fuel',
  severity: 'warning',
  why: 'When the pump falls off or a filter clogs, the nitrous does not: it goes on with too little fuel, and pistons melt within a second. A pressure switch in the line of its fuel costs little and shuts it off.',
  inspect:
    'Look for a pressure switch in the fuel line to the plate or at the rail, wired in series with the solenoids, and at which pressure it opens.',
  remedy: 'Fit a fuel pressure switch that opens a few psi below the working pressure, in series with the solenoids.',
  source: 'common practice',
  cautions: ['nitrous', 'fuel-pressure'],
  check: ({ stage: { nitrous } }) => {
    if (nitrous?.['fuel-pressure-cut'] !== false) return undefined;
    return {
      at: 'stages.nitrous.fuel-pressure-cut',
      message: 'Nothing stops the nitrous when the pressure of its fuel falls.',
      related: [{ at: 'stages.nitrous', message: 'The nitrous system.' }],
      repairs: [{ title: 'Fit a fuel pressure switch', set: { 'stages.nitrous.fuel-pressure-cut': true } }],
    };
  },
};
