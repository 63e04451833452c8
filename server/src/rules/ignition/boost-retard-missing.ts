import { fullLoadTiming } from '../../analysis/timing.ts';
import type { StageRule } from '../../checking/rule.ts';
import { startingTiming } from '../../engineering/timing.ts';
import { formatIn } from '../../units/format.ts';

export const rule: StageRule = {
  id: 'ignition/boost-retard-missing',
  title: 'No retard under boost',
  severity: 'warning',
  why: 'A denser charge burns faster and knocks sooner, and knock under boost breaks pistons in seconds. The figure is one to start from: let someone with experience set full load and boost, on a dyno where you can.',
  inspect: 'Look in the timing table of the computer, above the pressure of the air: the numbers must fall with boost.',
  remedy: 'Take timing out for each pound of boost, start with more than you need, and have it set on a dyno.',
  source: 'common practice, from memory',
  cautions: ['knock'],
  check: ({ values: { ignition }, stage: { boost }, induction, show }) => {
    if (!ignition?.timing || !boost || boost.value <= 0 || ignition['retard-per-boost']?.value) return undefined;
    const unit = boost.unit === 'psi' ? 'deg/psi' : 'deg/bar';
    const usual = formatIn(startingTiming(induction).retardPerBoost, 'angle-per-pressure', unit);
    const isComputer = ignition.timing === 'computer';
    return {
      at: 'ignition.retard-per-boost',
      message: `No timing is taken out for ${show(boost)} of boost.`,
      related: [{ at: 'stages.boost', message: 'The boost of this stage.' }],
      excess: boost.value,
      repairs: [
        {
          title: `${isComputer ? 'Take out' : 'Fit a boost retard that takes out'} ${usual}${isComputer ? ' under boost' : ''}`,
          set: { 'ignition.retard-per-boost': usual },
          shows: fullLoadTiming,
        },
      ],
    };
  },
};
