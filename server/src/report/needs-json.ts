import type { Need, Needs } from '../fit/needs.ts';
import type { Broken } from '../fit/trials.ts';
import { pathText } from '../sheet/entry.ts';

/** Needs as plain data for programs; numbers in SI. */
export function needsData({ needs, assumed }: Needs): object {
  return {
    needs: needs.map(needData),
    assumed: assumed.map(({ place, value, because }) => ({ field: pathText(place), value, because })),
  };
}

function needData(need: Need): object {
  const { part, name, field, isAssumed } = need;
  if (need.asks === 'choice') {
    const choices = need.choices.map(({ value, broken }) => ({ value, broken: broken.map(brokenData) }));
    return { part, name, field, isAssumed, present: need.present ?? null, choices };
  }
  const { low, high, standing } = need.window;
  const end = (of: typeof low) => (of ? { value: of.value, broken: of.broken.map(brokenData) } : null);
  return {
    part,
    name,
    field,
    isAssumed,
    dimension: need.about.dimension,
    low: end(low),
    high: end(high),
    sizes: need.sizes,
    standing: standing.map(brokenData),
  };
}

function brokenData({ rule, severity, stage, day, message, ways }: Broken): object {
  return { rule, severity, stage, ...(day && { day }), message, ways: ways.map(({ title }) => title) };
}
