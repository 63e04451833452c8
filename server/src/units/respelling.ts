import type { Dimension } from './units.ts';

/** A text with its numbers as a sheet writes them, and what was wrong with them. The digits are the same. */
export type Respelling = { text: string; message: string };

const NUMBER = /\d+(?:[.,]\d+)*/g;
const BY_COMMAS = /^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/;
const BY_POINTS = /^[1-9]\d{0,2}(?:(?:\.\d{3})+,\d+|(?:\.\d{3}){2,})$/;
const WITH_COMMA = /^\d+,\d+$/;
const BY_SPACES = /(?<![\d.,/])[1-9]\d{0,2}(?:[ \u00a0\u2009\u202f'’]\d{3}(?!\d))+/g;
const WITH_LETTERS = /[\dO.,]+/gi;
const TO = /(?<=[\d\p{L}"'%])\s?(?:[-–—]|\bto\b)\s?(?=[\d.])/u;

/** What a text that is no quantity may have meant by another custom of writing numbers, the usual customs first. */
export function respellings(text: string, dimension: Dimension): Respelling[] {
  const numbers = (pattern: RegExp, write: (number: string) => string) =>
    text.replaceAll(NUMBER, (number) => (pattern.test(number) ? write(number) : number));
  const ways = [
    { text: withZeros(text, dimension), message: 'A letter O stands in this number where a zero belongs.' },
    { text: numbers(BY_COMMAS, (number) => number.replaceAll(',', '')), message: 'Write thousands without commas.' },
    {
      text: numbers(BY_POINTS, (number) => number.replaceAll('.', '').replace(',', '.')),
      message: 'Write thousands without points.',
    },
    { text: numbers(WITH_COMMA, (number) => number.replace(',', '.')), message: 'Write decimals with a point.' },
    {
      text: text.replaceAll(BY_SPACES, (number) => number.replaceAll(/\D/g, '')),
      message: 'Write thousands without spaces.',
    },
    { text: text.replace(TO, '..'), message: 'Write a range with two points between its ends.' },
  ];
  return ways.filter((way) => way.text !== text);
}

/** `2O5` as `205`; a last letter that may stand for a degree sign stays. */
function withZeros(text: string, dimension: Dimension): string {
  const mayBeDegree = dimension === 'temperature' || dimension === 'angle';
  return text.replaceAll(WITH_LETTERS, (run) => {
    const isNumber = /\d/.test(run) && !run.endsWith('o') && !(mayBeDegree && run.endsWith('O'));
    return isNumber ? run.replaceAll(/O/gi, '0') : run;
  });
}
