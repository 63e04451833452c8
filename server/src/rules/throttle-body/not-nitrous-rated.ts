import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/not-nitrous-rated',
  title: 'Throttle body not rated for nitrous',
  severity: 'error',
  capacity: true,
  why: 'The computer must add fuel or take out timing the moment nitrous flows, and a plate under the body must not upset its idle. One that is not made for it goes lean with the most oxygen in the cylinder, and pistons melt.',
  inspect: 'Ask the maker whether the computer has an input that adds fuel or takes out timing while nitrous flows.',
  remedy: 'Fit a throttle body and computer made for it before the plate goes on.',
  source: 'common practice',
  cautions: ['nitrous'],
  check: ({ values, stage, show }) => {
    if (!stage.nitrous || values['throttle-body']?.['nitrous-rated'] !== false) return undefined;
    const { power } = stage.nitrous;
    return {
      at: 'throttle-body.nitrous-rated',
      message: `Nitrous ${power ? `for ${show(power)} ` : ''}is planned on a throttle body that is not rated for it.`,
      related: [{ at: 'stages.nitrous', message: 'The nitrous.' }],
      excess: power?.value ?? 0,
      repairs: [{ title: 'Fit a throttle body rated for nitrous', set: { 'throttle-body.nitrous-rated': true } }],
    };
  },
};
