import { findUnit, type Unit } from './units.ts';

/** What a pressure is counted from: up from the air around, up from nothing, or down from the air around. */
export type Reference = 'gauge' | 'absolute' | 'vacuum';

export type PressureDimension = 'pressure' | 'absolute-pressure' | 'depression';

const WORDS: Record<string, Reference> = {
  gauge: 'gauge',
  gage: 'gauge',
  g: 'gauge',
  absolute: 'absolute',
  abs: 'absolute',
  a: 'absolute',
  vacuum: 'vacuum',
  vac: 'vacuum',
};

/** Air pressure at sea level, Pa. Source: ISO 2533:1975, standard atmosphere. */
const SEA_LEVEL = 101_325;

const VACUUM_NOTE =
  'vacuum is counted down from the air: shown here for sea level, 101.325 kPa, and reckoned with the air at the site';

/** `bar gauge`, `psia`, `kPa(g)`, `in. of vacuum`: the unit without its reference, and the reference. */
export function withReference(name: string): { unit: Unit; reference: Reference } | undefined {
  const bare = name.trimEnd().replace(/\)$/, '').toLowerCase();
  const word = Object.keys(WORDS).find((one) => bare.endsWith(one));
  const reference = word && WORDS[word];
  if (!word || !reference) return undefined;
  const rest = name.slice(0, bare.length - word.length).replace(/[\s(-]+$/, '');
  const isColumn = reference === 'vacuum' && findUnit('length', rest.replace(/\sof$/, ''))?.name === 'in';
  const unit = findUnit('pressure', isColumn ? 'inHg' : rest);
  return unit && { unit, reference };
}

/**
 * The unit of a pressure with its reference, as a field of that dimension reads it: vacuum of an absolute pressure runs
 * down from the air at sea level. A sentence where the reference contradicts the field.
 */
export function referredUnit(dimension: PressureDimension, name: string): Unit | string | undefined {
  const referred = withReference(name);
  if (!referred) return undefined;
  const { unit, reference } = referred;
  if (dimension === 'absolute-pressure') {
    if (reference === 'vacuum') return { ...unit, factor: -unit.factor, offset: SEA_LEVEL, note: VACUUM_NOTE };
    return reference === 'absolute'
      ? unit
      : 'This field takes an absolute pressure: add the pressure of the air, about 14.7 psi or 101 kPa at sea level.';
  }
  if (reference === 'absolute')
    return 'This field takes a gauge pressure: take off the pressure of the air, about 14.7 psi or 101 kPa at sea level.';
  if (reference === 'vacuum' && dimension === 'pressure')
    return 'This field takes a pressure above that of the air, not a vacuum.';
  return unit;
}
