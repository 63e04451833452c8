import { quoted } from '../text/echo.ts';
import { distanceFromUsual, type Expected, isWithin } from './expected.ts';
import { takeApart } from './grammar.ts';
import { withReference } from './pressure-unit.ts';
import { isQuantity, type Quantity, type QuantityError } from './quantity.ts';
import { readQuantity } from './read.ts';

/** What to ask where a quantity was read one way and may well be meant another way, with both written clearly. */
export function doubt(read: Quantity, expected: Expected): QuantityError | undefined {
  return doubtOfPoint(read, expected) ?? doubtOfVacuum(read, expected);
}

const THREE_DECIMALS = /[1-9]\d{0,2}\.\d{3}(?!\d)/;

/** `altitude: 1.200 m`: three decimals, and a thousand times the value is possible and nearer to what is usual. */
function doubtOfPoint(read: Quantity, expected: Expected): QuantityError | undefined {
  if (!THREE_DECIMALS.test(read.text)) return undefined;
  const large = rewritten(read, (number) => number.replace('.', ''));
  const small = rewritten(read, (number) => (number.endsWith('0') ? String(Number(number)) : `${number}0`));
  if (!large || !isWithin(large, expected)) return undefined;
  if (distanceFromUsual(large, expected) >= distanceFromUsual(read, expected)) return undefined;
  return asks(read, 'the point in this number a decimal point, or does it part thousands', [large, small], expected);
}

/** The quantity with its numbers written otherwise, if each of them has three decimals after one to three digits. */
function rewritten({ text, dimension }: Quantity, write: (number: string) => string): Quantity | undefined {
  const phrase = takeApart(text);
  const measures = phrase?.second && phrase.sign === 'range' ? [phrase.second, phrase.first] : [phrase?.first];
  let other = text;
  for (const measure of measures) {
    if (!measure) return undefined;
    const { start, end } = measure.number;
    const number = text.slice(start, end);
    if (!/^[1-9]\d{0,2}\.\d{3}$/.test(number)) return undefined;
    other = other.slice(0, start) + write(number) + other.slice(end);
  }
  const read = readQuantity(other.trim(), dimension);
  return isQuantity(read) ? read : undefined;
}

/** `idle-manifold-pressure: 18 inHg`: gauges that show inches of mercury count vacuum down from the air. */
function doubtOfVacuum(read: Quantity, expected: Expected): QuantityError | undefined {
  if (read.dimension !== 'absolute-pressure' || !/^(?:inHg|mmHg)$/.test(read.unit)) return undefined;
  const phrase = takeApart(read.text);
  const [own, other] = [phrase?.first.unit, phrase?.second?.unit];
  const units = (phrase?.sign === 'range' ? [other, own] : [own ?? other]).filter((unit) => unit !== undefined);
  if (units.some(({ name }) => withReference(name))) return undefined;
  const said = (word: string) => {
    let text = read.text;
    for (const { end } of units) text = `${text.slice(0, end)} ${word}${text.slice(end)}`;
    return readQuantity(text.trim(), read.dimension);
  };
  const [vacuum, absolute] = [said('vacuum'), said('abs')];
  if (!isQuantity(vacuum) || !isQuantity(absolute) || !isWithin(vacuum, expected)) return undefined;
  return asks(read, 'this a vacuum, counted down from the air, or an absolute pressure', [vacuum, absolute], expected);
}

function asks(
  { text }: Quantity,
  question: string,
  readings: readonly (Quantity | undefined)[],
  expected: Expected,
): QuantityError {
  const instead = readings.flatMap((reading) => (reading && isWithin(reading, expected) ? reading.text : []));
  const start = text.length - text.trimStart().length;
  const message = `Is ${question}? Write ${instead.map(quoted).join(' or ')}.`;
  return { message, start, end: text.trimEnd().length, instead };
}
