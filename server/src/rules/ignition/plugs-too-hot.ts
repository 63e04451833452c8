import type { Situation, StageRule } from '../../checking/rule.ts';

/** Added power, W, for which one step of heat range is usual: 100 hp. Common practice, from memory: one step for 75 to 100 hp. */
const STEP = 100 * 745.7;

export const rule: StageRule = {
  id: 'ignition/plugs-too-hot',
  title: 'Plugs too hot for boost or nitrous',
  severity: 'warning',
  why: 'The tip of a plug that is too hot glows and lights the charge before the spark. Under boost or nitrous that is worse than knock, and it does not stop when the spark is taken back.',
  inspect:
    'Read the plugs after a short pull, engine cut at once: specks of aluminum or a ground strap blue far down mean too hot.',
  remedy: 'One step colder for each 75 to 100 hp that boost and nitrous add, by the list of the maker of the plugs.',
  source: 'common practice, from memory',
  cautions: ['knock'],
  check: (situation) => {
    const added = addedPower(situation);
    const colder = added && situation.values.ignition?.['plugs-colder'];
    const steps = Math.floor(added / STEP + 0.25);
    if (typeof colder !== 'number' || colder >= steps) return undefined;
    return {
      at: 'ignition.plugs-colder',
      message: `Boost and nitrous add ${situation.showValue(added, 'power')}, but the plugs are ${colder === 0 ? 'as hot as for the engine as it was made' : `only ${colder} ${colder === 1 ? 'step' : 'steps'} colder`}: take plugs ${steps} ${steps === 1 ? 'step' : 'steps'} colder.`,
      excess: steps - colder,
      repairs: [
        {
          title: `Take plugs ${steps} ${steps === 1 ? 'step' : 'steps'} colder`,
          set: { 'ignition.plugs-colder': steps },
        },
      ],
    };
  },
};

/** What boost and nitrous add to the last stage without a blower, W; nothing known of it counts as nothing. */
function addedPower({ stage, induction, plan, natural }: Situation): number {
  const before = natural === undefined ? undefined : plan[natural]?.stage.power?.value;
  const boosted = induction === 'natural' || !before || !stage.power ? 0 : stage.power.value - before;
  return boosted + (stage.nitrous?.power?.value ?? 0);
}
