import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { fromStageOn } from '../../remedies/from-stage-on.ts';
import { roundedUp } from '../../remedies/size.ts';
import { inChanges } from '../../sheet/path.ts';

/** 18 in, a usual distance after the collector and the least after a turbine. Common practice, from memory. */
const USUAL_DISTANCE = 0.4572;

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-place',
  title: 'Oxygen sensor in the wrong place',
  severity: 'warning',
  why: 'The computer trims the fuel of all cylinders by this one sensor, so it must see the gas of all of them, at ordinary pressure and not cooled down. From a wrong place it trims toward a mixture the engine does not have.',
  inspect: 'See what the sensor sees: one cylinder, all of one bank, or the whole exhaust, and how hot it runs there.',
  remedy: 'Mount it at the collector, with a turbo in the downpipe, upper half of the pipe.',
  source: 'common practice',
  cautions: ['welding'],
  check: (situation) => {
    const message = whatIsWrong(situation);
    if (!message) return undefined;
    const isTurbo = situation.induction === 'turbo';
    return {
      at: 'sensors.oxygen.placement',
      message,
      ...(isTurbo ? { related: [{ at: 'stages.induction', message: 'The turbocharger of this stage.' }] } : {}),
      repairs: [moved(situation)],
    };
  },
};

function whatIsWrong({ values, induction, plan }: Situation): string | undefined {
  const isTurbo = induction === 'turbo';
  switch (values.sensors?.oxygen?.placement) {
    case 'primary-tube':
      return 'In a single primary tube the oxygen sensor sees one cylinder only.';
    case 'tailpipe':
      return 'In the tailpipe the oxygen sensor is cold and late, and air comes in to it from behind.';
    case 'before-turbine':
      return 'Before the turbine, heat and back-pressure spoil the reading of the oxygen sensor and wear it out.';
    case 'collector':
      return isTurbo
        ? 'With a turbocharger the collector is before the turbine, too hot and under pressure.'
        : undefined;
    case 'after-turbine':
      return plan.some(({ stage }) => stage.induction) && !plan.some(({ stage }) => stage.induction === 'turbo')
        ? 'The oxygen sensor is given after a turbine, but no stage has one.'
        : undefined;
    default:
      return undefined;
  }
}

/** The sensor in its right place, in this stage and in a later one with a turbine; a given distance belongs to the old place. */
function moved(situation: Situation): Repair {
  const { values, induction, plan, index } = situation;
  const { placement, distance } = values.sensors?.oxygen ?? {};
  const at = distance && roundedUp(USUAL_DISTANCE, distance);
  const away = at ? `${at} after` : 'after';
  const fields = (to: string) => ({
    'sensors.oxygen.placement': to,
    ...(at ? { 'sensors.oxygen.distance': at } : {}),
  });
  if (induction === 'turbo') return fromStageOn(situation, `Mount it ${away} the turbine`, fields('after-turbine'));
  const turbo = plan.find(({ stage }) => stage.induction === 'turbo');
  const staysWrong = turbo && turbo.index > index && turbo.values.sensors?.oxygen?.placement === placement;
  const title = `Mount it ${away} the collector`;
  if (!staysWrong) return { title, set: fields('collector') };
  return {
    title: `${title}, and from stage "${turbo.name}" on after the turbine`,
    set: fields('collector'),
    changes: [{ set: inChanges(turbo.index, 'sensors.oxygen.placement'), to: 'after-turbine' }],
  };
}
