import { type Units, unitFor } from '../units/format.ts';
import { type Dimension, findUnit } from '../units/units.ts';
import { round } from './svg.ts';

/** What stands along one side of a plot: a quantity in SI, or places passed one after the other. */
export type Axis = { name: string; dimension: Dimension } | { name: string; places: readonly string[] };

export type Scale = { at: (value: number) => number; ticks: readonly { at: number; text: string }[]; label: string };

/** Where values lie between two ends of a drawing: between round numbers around 0 and all of them, or one place after the other. */
export function scaleOf(axis: Axis, values: readonly number[], units: Units, from: number, to: number): Scale {
  if ('places' in axis) {
    const at = (place: number) => from + ((to - from) * (place + 0.5)) / axis.places.length;
    return { at, ticks: axis.places.map((text, place) => ({ at: round(at(place)), text })), label: axis.name };
  }
  const { name, dimension } = axis;
  const unit = unitFor(Math.max(...values, 0), dimension, units);
  const factor = findUnit(dimension, unit)?.factor ?? 1;
  const most = Math.max(...values.map((value) => value / factor), 0);
  const least = Math.min(...values.map((value) => value / factor), 0);
  const step = niceStep((most - least) / 5);
  const top = Math.ceil((most * 1.02) / step) * step || step;
  const bottom = Math.floor(least / step) * step;
  const place = (value: number) => from + ((to - from) * (value - bottom)) / (top - bottom);
  const ticks = Array.from({ length: Math.round((top - bottom) / step) + 1 }, (_, index) => {
    const value = bottom + index * step;
    return { at: round(place(value)), text: String(Number(value.toPrecision(6))) };
  });
  const at = (value: number) => place(value / factor);
  return { at, ticks, label: unit ? `${name}, ${unit}` : name };
}

/** 1, 2 or 5 times a power of ten, at least the value. */
function niceStep(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value || 1));
  return ([1, 2, 5, 10].find((step) => step * decade >= value) ?? 10) * decade;
}
