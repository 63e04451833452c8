import { airflowFourBore, airflowNeeded, airflowShare } from '../../analysis/throttle.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { passesTooMuchAir } from '../../remedies/oversize.ts';
import { percent } from '../../remedies/percent.ts';
import { roundedUp } from '../../remedies/size.ts';

/** Share a well-chosen throttle body is used to at full power. Common practice, from memory. */
const GOOD_SHARE = 0.6;

export const rule: StageRule = {
  id: 'throttle-body/airflow-far-too-large',
  title: 'Throttle body far too large for the air',
  severity: 'information',
  why: 'With bores this large all the driving is done in the first few degrees of pedal, and at idle the plates are nearly shut, where they are hardest to set. You pay for air no stage ever draws.',
  inspect:
    'Vacuum gauge on the manifold at full throttle and full speed: if next to nothing is left, the bores are larger than the engine needs.',
  remedy: 'A throttle body of the next size down, or keep it and live with a touchy pedal.',
  source: 'common practice, from memory',
  check: (situation) => {
    const { see, show, values } = situation;
    const bodies = values['throttle-body']?.quantity ?? 1;
    const field = values['throttle-body']?.['rated-airflow']
      ? 'throttle-body.rated-airflow'
      : 'throttle-body.bores.diameter';
    const share = see(airflowShare);
    const rating = see(airflowFourBore);
    if (!share || !passesTooMuchAir(situation)) return undefined;
    return {
      at: field,
      message: `Even at full power the engine draws ${show(see(airflowNeeded))}, ${percent(share.value)} of the ${show(rating)} ${bodies > 1 ? `the ${bodies} throttle bodies pass` : 'the throttle body passes'} at 1.5 inHg.`,
      related: [{ at: 'stages.power', message: 'The most power that is planned with this throttle body.' }],
      excess: share.value,
      repairs: smallerBody(situation, share.value / GOOD_SHARE),
    };
  },
};

function smallerBody({ values }: Situation, times: number): Repair[] {
  const { bores, 'rated-airflow': rated } = values['throttle-body'] ?? {};
  if (rated) {
    const airflow = roundedUp(rated.value * times, rated);
    return [
      {
        title: `Fit a throttle body rated at ${airflow}`,
        set: { 'throttle-body.rated-airflow': airflow },
        shows: airflowShare,
      },
    ];
  }
  if (!bores?.diameter) return [];
  const diameter = roundedUp(bores.diameter.value * Math.sqrt(times), bores.diameter);
  return [
    {
      title: `Fit a throttle body with bores of ${diameter}`,
      set: { 'throttle-body.bores.diameter': diameter },
      shows: airflowShare,
    },
  ];
}
