import { isFields, valueAt } from '../sheet/path.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import type { PartKind } from '../sheet/slots.ts';
import { echo } from '../text/echo.ts';
import { isQuantityValue } from '../units/quantity.ts';

/** The two fields of each kind that tell most about a part. */
const TELLING: Readonly<Record<PartKind, readonly string[]>> = {
  'throttle-body': ['power-rating', 'bores.diameter'],
  injectors: ['static-flow', 'rated-pressure'],
  intake: ['manifold', 'flange'],
  adapter: ['to', 'thickness'],
  'manifold-pressure-sensor': ['range'],
  'oxygen-sensor': ['placement'],
  'coolant-sensor': ['placement'],
  ignition: ['trigger', 'driver'],
  coil: ['resistance', 'made-for'],
  tank: ['capacity', 'surge-control'],
  pump: ['flow-at', 'current'],
  'lift-pump': ['flow', 'current'],
  line: ['inside-diameter', 'material'],
  filter: ['rating', 'loss'],
  regulator: ['pressure', 'style'],
  circuit: ['wire', 'fuse'],
};

/** The figures of a part that matter, as they are written in the catalog. */
export function tellingFigures({ kind, fields }: Pick<ShelfPart, 'kind' | 'fields'>): string[] {
  return TELLING[kind].flatMap((field) => shown(valueAt(fields, field.split('.'))) ?? []);
}

/** Most fields that are listed. */
const MOST_LINES = 12;

/** The fields of a part as lines, each as it is written in the catalog. */
export function fieldLines(fields: Readonly<Record<string, unknown>>, within = ''): string[] {
  const lines = Object.entries(fields).flatMap(([name, value]): string[] => {
    if (isFields(value)) return fieldLines(value, `${within}${name}.`);
    const text = shown(value);
    return text === undefined ? [] : [`${within}${name}: ${echo(text)}`];
  });
  return lines.slice(0, MOST_LINES);
}

/** A value as it is written; of a pump curve the middle point. */
export function shown(value: unknown): string | undefined {
  if (isQuantityValue(value)) return value.text;
  if (Array.isArray(value)) {
    const point = value[Math.floor((value.length - 1) / 2)];
    if (!Array.isArray(point)) return undefined;
    const [at, of] = point.map(shown);
    return at && of ? `${of} at ${at}` : undefined;
  }
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
    ? String(value)
    : undefined;
}
