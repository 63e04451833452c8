import { RATED_VOLTAGE } from '../analysis/fuel-network.ts';
import type { Checked } from '../checking/checked.ts';
import type { Rule } from '../checking/rule.ts';
import type { NewValue } from '../sheet/edit.ts';
import { unitsIn } from '../sheet/house.ts';
import { type FieldPath, stepsOf, valueAt } from '../sheet/path.ts';
import type { Steps } from '../text/steps.ts';
import { formatValue, systemOf } from '../units/format.ts';
import { findUnit } from '../units/units.ts';
import type { Assumed } from './build.ts';
import { choicesOf, type Tried } from './choices.ts';
import { completed } from './completed.ts';
import { type Asked, asked, type NumberAsked } from './properties.ts';
import { brokenBy, Trials } from './trials.ts';
import { curveThrough, workOf } from './usual-values.ts';
import { type Window, windowOf } from './window.ts';

/** What the build asks of one property of a part. */
export type Need = {
  part: string;
  name: string;
  field: FieldPath;
  /** What the sheet says, or what is assumed where it says nothing. */
  present: unknown;
  isAssumed: boolean;
} & (
  | { asks: 'number'; about: NumberAsked; window: Window; sizes: readonly number[] }
  | { asks: 'choice'; choices: readonly Tried[] }
);

/** What a build needs, over all its stages, days and tolerances, and what that stands on. */
export type Needs = { needs: readonly Need[]; assumed: readonly Assumed[] };

/** The needs of a sheet; only those of the fields that are `wanted`, if it says. */
export function* needsOf(checked: Checked, rules: readonly Rule[], wanted = (_: FieldPath) => true): Steps<Needs> {
  const build = completed(checked);
  const trials = new Trials(build, rules, checked.verdict);
  const needs: Need[] = [];
  for (const one of asked) {
    if (!wanted(one.field)) continue;
    const time = yield;
    if (time) break;
    const need = needOf(trials, one);
    if (need) needs.push(need);
  }
  return { needs, assumed: build.assumed };
}

function needOf(trials: Trials, one: Asked): Need | undefined {
  const { build } = trials;
  const steps = stepsOf(one.field);
  const isAssumed = build.assumed.some(({ place }) => place.join('.') === one.field);
  const about = {
    part: one.part,
    name: nameOf(trials, one),
    field: one.field,
    present: valueAt(build.values, steps),
    isAssumed,
  };
  if (!('dimension' in one)) {
    const choices = choicesOf(trials, one.field);
    return choices.some(({ broken }) => broken.length > 0) ? { ...about, asks: 'choice', choices } : undefined;
  }
  const unit = findUnit(one.dimension, one.unit);
  if (!unit) return undefined;
  const window = windowOf(trials, {
    field: one.field,
    from: one.from * unit.factor,
    to: one.to * unit.factor,
    write: (value) => writtenAs(trials, one, value),
    ...(one.without && { without: [one.without] }),
  });
  if (!window.low && !window.high && window.standing.length === 0) return undefined;
  const all = one.sizes?.[systemOf(unitsIn(build.house))] ?? [];
  const { low, high } = window;
  const isOpen = !low || !high || low.value <= high.value;
  const sizes = isOpen ? all.filter((size) => isWithin(trials, one, window, size)) : [];
  return { ...about, asks: 'number', about: one, window, sizes };
}

/** The property with what it is asked at or of. */
function nameOf({ build }: Trials, { field, name }: Asked): string {
  const { values, house } = build;
  if (field === 'throttle-body.injectors.static-flow') {
    const body = values['throttle-body'];
    const count = (body?.injectors?.quantity ?? 0) * (body?.quantity ?? 1);
    const rated = body?.injectors?.['rated-pressure'];
    return `static flow of each of ${count}${rated ? ` at ${rated.text}` : ''}`;
  }
  const work = field === 'fuel-system.pump.flow-at' ? workOf(build) : undefined;
  if (!work) return name;
  const volts = values['fuel-system']?.pump?.['rated-voltage']?.value ?? RATED_VOLTAGE;
  return `delivery at ${formatValue(work.pressure, 'pressure', unitsIn(house))} and ${volts} V`;
}

/** How near an end a size must be for the end's own exactness to matter; there it is tried itself. */
const NEAR = 1.01;

function isWithin(trials: Trials, one: NumberAsked, { low, high }: Window, size: number): boolean {
  if (low && size < low.value / NEAR) return false;
  if (high && size > high.value * NEAR) return false;
  const isNear = [low, high].some((end) => end && size > end.value / NEAR && size < end.value * NEAR);
  if (!isNear) return true;
  const ends = new Set([...(low?.broken ?? []), ...(high?.broken ?? [])].map(({ rule }) => rule));
  const broken = brokenBy(trials, one.field, writtenAs(trials, one, size), one.without ? [one.without] : []);
  return broken !== undefined && !broken.some(({ rule }) => ends.has(rule));
}

/** A pump is tried as a curve through the delivery at its point of work. */
function writtenAs({ build }: Trials, { field, dimension, unit }: NumberAsked, value: number): NewValue {
  const curve = field === 'fuel-system.pump.flow-at' ? curveThrough(build, value) : undefined;
  return curve ?? `${value / (findUnit(dimension, unit)?.factor ?? 1)} ${unit}`;
}
