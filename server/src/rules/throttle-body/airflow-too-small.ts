import { airDemand } from '../../analysis/demand.ts';
import type { Estimate } from '../../analysis/figure.ts';
import {
  airflowNeeded,
  depressionColdest,
  depression as depressionFigure,
  effectiveArea,
} from '../../analysis/throttle.ts';
import { above, type Day, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { roundedUp } from '../../remedies/size.ts';

/** What compressibility takes from the square-root law at these depressions. Common practice: a few percent. */
const COMPRESSIBILITY = 1.03;

export const rule: StageRule = {
  id: 'throttle-body/airflow-too-small',
  title: 'Throttle body too small for the air',
  severity: 'warning',
  capacity: true,
  why: 'What the bores hold back at full throttle is missing in the cylinders: the claimed power is not reached, and with a blower or turbo the boost falls too. The limit is the pressure drop at which four-bore bodies are rated.',
  inspect: 'Vacuum gauge on the manifold at full throttle and full speed: what it shows is what the bores hold back.',
  remedy: 'Larger bores, or two bodies as one set where the manifold has the pads.',
  source: 'NACA Report 1135 (1953); Heywood (1988), eqs. C.8 and C.9; the limit of 1.5 inHg is common practice',
  check: (situation) => {
    const { limit, values, compare } = situation;
    const most = limit('pressure-drop');
    const { day, drop, choked } = worstDay(situation);
    const miss = choked ? { excess: Number.POSITIVE_INFINITY } : above(drop, most);
    if (!miss) return undefined;
    const shown = drop && compare(drop, most);
    return {
      at: values['throttle-body']?.['rated-airflow'] ? 'throttle-body.rated-airflow' : 'throttle-body.bores',
      message: shown
        ? `At full power the throttle body holds back ${shown.value} on ${day}, over the limit of ${shown.limit}.`
        : (choked ?? ''),
      related: [{ at: 'stages.power', message: 'The power of this stage asks for it.' }],
      day,
      ...miss,
      repairs: largerBodies(situation, most, drop),
    };
  },
};

/** The day on which the bores hold back the most, and why where they choke on it. */
function worstDay({ see, impossible }: Situation): { day: Day; drop?: Estimate; choked?: string } {
  const days = [
    { day: 'the coldest, lowest day' as const, node: depressionColdest },
    { day: 'the hottest, highest day' as const, node: depressionFigure },
  ];
  const found = days.map(({ day, node }) => {
    const drop = see(node);
    const choked = impossible(node);
    return { day, ...(drop && { drop }), ...(choked && { choked }) };
  });
  const choking = found.find(({ choked }) => choked);
  const top = ({ drop }: { drop?: Estimate }) => drop?.high ?? drop?.value ?? 0;
  return choking ?? found.reduce((one, other) => (top(other) > top(one) ? other : one));
}

/** How many times the area that chokes passes the air at the limit, by the square-root law. */
function timesForChoked(see: Situation['see'], most: number): number | undefined {
  const [area, needed, air] = [see(effectiveArea), see(airflowNeeded), see(airDemand)];
  if (!area || !needed || !air) return undefined;
  const density = air.value / needed.value;
  const wanted = ((needed.high ?? needed.value) * COMPRESSIBILITY) / Math.sqrt((2 * most) / density);
  return wanted / (area.low ?? area.value);
}

/** Bores or a rating large enough, or more bodies where the manifold has the pads. */
function largerBodies({ values, see }: Situation, most: number, drop: Estimate | undefined): Repair[] {
  const times = drop ? Math.sqrt((drop.high ?? drop.value) / most) * COMPRESSIBILITY : timesForChoked(see, most);
  if (times === undefined) return [];
  const { bores, quantity = 1, 'rated-airflow': rated, 'set-size': size } = values['throttle-body'] ?? {};
  const repairs: Repair[] = [];
  if (rated) {
    const airflow = roundedUp(rated.value * times, rated);
    repairs.push({
      title: `Fit a throttle body rated at ${airflow}`,
      set: { 'throttle-body.rated-airflow': airflow },
      shows: depressionColdest,
    });
  } else if (bores?.diameter) {
    const diameter = roundedUp(bores.diameter.value * Math.sqrt(times), bores.diameter);
    repairs.push({
      title: `Fit a throttle body with bores of ${diameter}`,
      set: { 'throttle-body.bores.diameter': diameter },
      shows: depressionColdest,
    });
  }
  const bodies = Math.ceil(quantity * times);
  if (bodies <= (values.engine?.intake?.pads ?? 1))
    repairs.push({
      title: `Mount ${bodies} throttle bodies, as one set`,
      set: { 'throttle-body.quantity': bodies, ...(size !== bodies && { 'throttle-body.set-size': bodies }) },
      shows: depressionColdest,
    });
  return repairs;
}
