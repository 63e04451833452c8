import type { FigureNode } from '../analysis/node.ts';
import { airflowShare } from '../analysis/throttle.ts';
import { LEAST_AIRFLOW_SHARE } from '../analysis/windows.ts';
import type { Situation } from '../checking/rule.ts';
import type { FieldPath } from '../sheet/path.ts';
import { sharing } from './sharing.ts';

type Ratio = (stage: Situation) => number | undefined;

/** Capacity over need by two figures. */
export const ratioOf =
  (has: FigureNode, needs: FigureNode): Ratio =>
  ({ see }) => {
    const [capacity, need] = [see(has), see(needs)];
    return capacity && need && capacity.value / need.value;
  };

/** How many times its need the part has in this stage, where it is over the limit in every stage that uses it. */
export function surplus({ plan, index, limit }: Situation, path: FieldPath, ratio: Ratio): number | undefined {
  const ratios = sharing(plan, index, path).map(ratio);
  const isOver = ratios.every((one) => one !== undefined && one > limit('surplus'));
  return isOver ? ratio(plan[index] as Situation) : undefined;
}

/** How many times the power of the hungriest stage the throttle body is rated for, where that is over the limit. */
export function ratingSurplus(situation: Situation): number | undefined {
  return surplus(situation, 'throttle-body.power-rating', ({ values: { 'throttle-body': body }, stage: { power } }) =>
    body?.['power-rating'] && power ? (body['power-rating'].value * (body.quantity ?? 1)) / power.value : undefined,
  );
}

/** Whether no stage that uses the throttle body draws a fair share of the air it passes. */
export function passesTooMuchAir({ plan, index, values, see }: Situation): boolean {
  const field = values['throttle-body']?.['rated-airflow']
    ? 'throttle-body.rated-airflow'
    : 'throttle-body.bores.diameter';
  const shares = sharing(plan, index, field).map((stage) => stage.see(airflowShare));
  return see(airflowShare) !== undefined && shares.every((one) => one && one.value < LEAST_AIRFLOW_SHARE);
}

/** Whether the throttle body as a whole is too large, by its air or by its rating: its injectors are then no cause of their own. */
export function isBodyOversized(situation: Situation): boolean {
  return passesTooMuchAir(situation) || ratingSurplus(situation) !== undefined;
}
