import { nitrousRetard } from '../../analysis/nitrous.ts';
import { above, type StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/nitrous-retard-missing',
  title: 'Too little retard for nitrous',
  severity: 'warning',
  why: 'Nitrous speeds up the burn, so the same timing is suddenly far too early: that knocks and breaks pistons at once. About 2 degrees for 50 hp is a figure to start from; confirm it on a dyno.',
  inspect: 'Timing light with nitrous armed but the bottle shut: the retard must come in with the switch.',
  remedy: 'Take the timing out in the computer or with a retard box on the same switch, before the first shot.',
  source: 'common practice, from memory: about 2 deg for 50 hp',
  cautions: ['nitrous', 'knock'],
  check: ({ values: { ignition }, stage, see, show }) => {
    const own = ignition?.['nitrous-retard'];
    const wanted = see(nitrousRetard);
    const miss = above(wanted, own?.value ?? 0);
    if (!ignition?.timing || !miss) return undefined;
    const halfDegrees = Math.ceil((wanted?.high ?? wanted?.value ?? 0) * 2 - 1e-9) / 2;
    const isComputer = ignition.timing === 'computer';
    return {
      at: 'ignition.nitrous-retard',
      message: `${show(stage.nitrous?.power)} of nitrous asks for about ${show(wanted)} of retard, but the sheet takes out ${own?.value ? `only ${show(own)}` : 'nothing'}.`,
      related: [{ at: 'stages.nitrous.power', message: 'The power nitrous adds in this stage.' }],
      ...miss,
      repairs: [
        {
          title: `${isComputer ? 'Take out' : 'Fit a retard box that takes out'} ${halfDegrees} deg while nitrous flows`,
          set: { 'ignition.nitrous-retard': `${halfDegrees} deg` },
        },
      ],
    };
  },
};
