import { distance } from 'fastest-levenshtein';
import { distanceFromUsual, type Expected, isWithin } from './expected.ts';
import { isQuantity, type QuantityError } from './quantity.ts';
import { type Misread, readQuantity } from './read.ts';
import { respellings } from './respelling.ts';
import { canonical, isUnitWord, unitWords } from './spelling.ts';
import { type Dimension, type DimensionUnits, dimensions, findUnit } from './units.ts';

/** Most texts offered for one that cannot be read. */
const MOST_OFFERED = 4;

/**
 * What a text that is no quantity may have meant. Each text offered has the digits that are written, is a quantity itself
 * and lies in the range of the field; where nothing does, nothing is offered.
 */
export function meant(text: string, misread: Misread, dimension: Dimension, expected: Expected): QuantityError {
  const { message, start, end } = misread;
  const others = isWellFormed(misread) ? [] : respelled(text, dimension, expected);
  const best = others.find(({ instead }) => instead.length > 0) ?? others[0];
  if (best) return { ...best, start: text.length - text.trimStart().length, end: text.trimEnd().length };
  return {
    message,
    start,
    end,
    instead: fitting(completions(text, misread, dimension, expected), dimension, expected),
  };
}

/** Whether the text is a quantity but for its missing unit or the order of its ends. */
function isWellFormed({ unitAt, turned }: Misread): boolean {
  return unitAt !== undefined || turned !== undefined;
}

/** What the text is with its numbers written as in a sheet, where it can be read then but for a missing unit. */
function respelled(text: string, dimension: Dimension, expected: Expected) {
  return respellings(text, dimension).flatMap(({ text: other, message }) => {
    const read = readQuantity(other, dimension);
    if (isQuantity(read)) return [{ message, instead: fitting([other], dimension, expected) }];
    if (read.unitAt === undefined) return [];
    return [{ message, instead: fitting(completions(other, read, dimension, expected), dimension, expected) }];
  });
}

/** The texts that are quantities within the field's range, the most usual sizes first. */
function fitting(texts: readonly string[], dimension: Dimension, expected: Expected): string[] {
  return [...new Set(texts)]
    .map((text) => readQuantity(text, dimension))
    .filter(isQuantity)
    .filter((read) => isWithin(read, expected))
    .toSorted((one, other) => compare(distanceFromUsual(one, expected), distanceFromUsual(other, expected)))
    .slice(0, MOST_OFFERED)
    .map(({ text }) => text);
}

function compare(one: number, other: number): number {
  return one === other ? 0 : one - other;
}

/** The text with the unit it lacks, or with the unit that its wrong one begins or nearly spells; a range turned round. */
function completions(
  text: string,
  { unitAt, unit, turned }: Misread,
  dimension: Dimension,
  expected: Expected,
): string[] {
  if (turned !== undefined) return [turned];
  if (unitAt !== undefined) {
    const before = text.slice(0, unitAt).trim();
    const after = text.slice(unitAt).trimEnd();
    return missingUnits(`${before} `, after, dimension, expected);
  }
  if (!unit) return [];
  const names = [...begunBy(unit.name, dimension), ...nearlySpelled(unit.name, dimension)];
  return names.map((name) => `${text.slice(0, unit.start).trim()} ${name}${text.slice(unit.end).trimEnd()}`);
}

/**
 * The number with the units usual for the field that give it a possible size, or else with any unit that does. Usual are the
 * units of its examples; where these show one only, those of both systems too.
 */
function missingUnits(before: string, after: string, dimension: Dimension, expected: Expected): string[] {
  const { us, si, units } = dimensions[dimension] as DimensionUnits;
  const shown = [...new Set(expected.usual.map(({ unit }) => unit))];
  const usual = shown.length > 1 ? shown : [...shown, ...us, ...si];
  const withUnits = (names: readonly string[]) => names.map((name) => `${before}${name}${after}`);
  const possible = fitting(withUnits(usual), dimension, expected);
  return possible.length ? possible : withUnits(units.map(({ name }) => name));
}

/** `80 lb` for `80 lb/h`: the units per time or the like that a unit begins. */
function begunBy(written: string, dimension: Dimension): string[] {
  const start = `${canonical(written)}/`.toLowerCase();
  const units = (dimensions[dimension] as DimensionUnits).units;
  return units
    .filter(({ name, also = [] }) => [name, ...also].some((one) => canonical(one).toLowerCase().startsWith(start)))
    .map(({ name }) => name);
}

/**
 * The units of a name whose words are each one letter away from a word that stands for a unit. Only words of five letters
 * and more with the same first letter count: with fewer, or another beginning, `mbar` and `bar`, `decimeter` and
 * `centimeter` would be near.
 */
function nearlySpelled(written: string, dimension: Dimension): string[] {
  const words = written.toLowerCase().match(/[a-z]+/g) ?? [];
  const wrong = words.find((word) => word.length >= 5 && !isUnitWord(word));
  if (wrong === undefined) return swapped(written, dimension);
  const near = unitWords.filter((word) => [word, `${word}s`].some((one) => isNear(wrong, one)));
  const units = near.map((word) => findUnit(dimension, written.toLowerCase().replace(wrong, word)));
  return [...new Set(units.flatMap((unit) => (unit ? [unit.name] : [])))];
}

function isNear(written: string, word: string): boolean {
  return word.length >= 5 && written[0] === word[0] && (distance(written, word) <= 1 || isSwap(written, word));
}

/** `rmp` for `rpm`: a unit of at least three letters with two neighbors exchanged. */
function swapped(written: string, dimension: Dimension): string[] {
  const units = (dimensions[dimension] as DimensionUnits).units;
  return units
    .filter(({ name, also = [] }) =>
      [name, ...also].some((one) => one.length >= 3 && isSwap(written.toLowerCase(), one.toLowerCase())),
    )
    .map(({ name }) => name);
}

function isSwap(one: string, other: string): boolean {
  if (one.length !== other.length) return false;
  const at = [...one].findIndex((letter, index) => letter !== other[index]);
  return at >= 0 && one.slice(0, at) + one.charAt(at + 1) + one.charAt(at) + one.slice(at + 2) === other;
}
