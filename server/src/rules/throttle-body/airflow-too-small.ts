import { airDemand } from '../../analysis/demand.ts';
import { withSpread } from '../../analysis/figure-words.ts';
import { airflowNeeded, depression as depressionFigure, effectiveArea } from '../../analysis/throttle.ts';
import { above, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
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
  source: 'NACA Report 1135; Heywood (1988), eqs. C.8 and C.9; the limit of 1.5 inHg is common practice',
  check: (situation) => {
    const { see, limit, values, show, showValue } = situation;
    const depression = see(depressionFigure);
    const most = limit('pressure-drop');
    const choked = situation.impossible(depressionFigure);
    const miss = choked ? { excess: Number.POSITIVE_INFINITY } : above(depression, most);
    const needed = see(airflowNeeded);
    if (!miss) return undefined;
    return {
      at: values['throttle-body']?.['rated-airflow'] ? 'throttle-body.rated-airflow' : 'throttle-body.bores',
      message: depression
        ? `At full power the throttle body holds back ${withSpread(depression, situation.showValue)}, over the limit of ${showValue(most, 'depression')}, with ${show(needed)} of air.`
        : (choked ?? ''),
      related: [{ at: 'stages.power', message: 'The power of this stage asks for it.' }],
      ...miss,
      repairs: largerBodies(situation, most),
    };
  },
};

/** Bores or a rating large enough, or more bodies where the manifold has the pads. */
function largerBodies({ see, values }: Situation, most: number): Repair[] {
  const [area, needed, air] = [see(effectiveArea), see(airflowNeeded), see(airDemand)];
  if (!area || !needed || !air) return [];
  const density = air.value / needed.value;
  const wanted = ((needed.high ?? needed.value) * COMPRESSIBILITY) / Math.sqrt((2 * most) / density);
  const times = wanted / (area.low ?? area.value);
  const { bores, quantity = 1, 'rated-airflow': rated, 'set-size': size } = values['throttle-body'] ?? {};
  const repairs: Repair[] = [];
  if (rated) {
    const airflow = roundedUp(rated.value * times, rated);
    repairs.push({
      title: `Fit a throttle body rated at ${airflow}`,
      set: { 'throttle-body.rated-airflow': airflow },
      shows: depressionFigure,
    });
  } else if (bores?.diameter) {
    const diameter = roundedUp(bores.diameter.value * Math.sqrt(times), bores.diameter);
    repairs.push({
      title: `Fit a throttle body with bores of ${diameter}`,
      set: { 'throttle-body.bores.diameter': diameter },
      shows: depressionFigure,
    });
  }
  const bodies = Math.ceil(quantity * times);
  if (bodies <= (values.engine?.intake?.pads ?? 1))
    repairs.push({
      title: `Mount ${bodies} throttle bodies, as one set`,
      set: { 'throttle-body.quantity': bodies, ...(size !== bodies && { 'throttle-body.set-size': bodies }) },
      shows: depressionFigure,
    });
  return repairs;
}
