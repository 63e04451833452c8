import type { Situation } from './rule.ts';

type Loss = { part: 'feed' | 'filter'; loss: number };

/** Whether less than the set pressure is left at the injectors at full power. */
export function railSags({ figure }: Pick<Situation, 'figure'>): boolean {
  const [set, rail] = [figure('rail-pressure-set'), figure('rail-pressure')];
  return set !== undefined && rail !== undefined && rail.value < set.value * (1 - 1e-6);
}

/**
 * The part with the larger loss, Pa, where the rail sags although the pump alone has the flow at the set pressure: the
 * way to the rail is the cause and not the pump.
 */
export function wayTooNarrow(situation: Pick<Situation, 'figure' | 'values'>): Loss | undefined {
  const { figure, values } = situation;
  const [alone, required] = [figure('pump-delivery-alone'), figure('required-delivery')];
  if (!alone || !required || alone.value < required.value || !railSags(situation)) return undefined;
  const [outlet, inlet, rail] = [
    figure('pump-outlet-pressure'),
    figure('filter-inlet-pressure'),
    figure('rail-pressure'),
  ];
  if (!outlet || !inlet || !rail) return undefined;
  const losses: Loss[] = [
    { part: 'feed', loss: outlet.value - inlet.value },
    { part: 'filter', loss: inlet.value - rail.value },
  ];
  const system = values['fuel-system'];
  const described = { feed: system?.feed?.['inside-diameter'], filter: system?.filter?.loss };
  return losses.filter(({ part }) => described[part]).toSorted((one, other) => other.loss - one.loss)[0];
}
