import { numberAt, type Written } from './number.ts';

/** A unit as written, and where. */
export type WrittenUnit = { name: string; start: number; end: number };
export type Measure = { number: Written; unit: WrittenUnit | undefined };

/** `350 hp`, `350 hp +/- 15 hp` or `1.2 .. 1.4 ms`, taken apart. */
export type Phrase = { first: Measure; sign?: 'tolerance' | 'range'; second?: Measure };

const SPACE = /\s*/y;
const TOLERANCE = /\+(?:\s*\/\s*)?-|±/y;
const RANGE = /\.{2,3}|…/y;
const UNIT_START = /-?(?:1\/(?=[a-z])|[^\d\s+±…−.,-])/iy;
const UNIT_END = /[+±…]|\.\./g;

/** Takes a text apart from left to right, each character looked at a bounded number of times. */
export function takeApart(text: string): Phrase | undefined {
  let at = 0;
  const take = (pattern: RegExp) => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    at += found?.length ?? 0;
    return found;
  };
  const measure = (): Measure | undefined => {
    take(SPACE);
    const number = numberAt(text, at);
    if (!number) return undefined;
    at = number.end;
    take(SPACE);
    const unit = unitAt(text, at);
    at = unit?.end ?? at;
    take(SPACE);
    return { number, unit };
  };
  const first = measure();
  if (!first) return undefined;
  const sign = take(TOLERANCE) ? 'tolerance' : take(RANGE) ? 'range' : undefined;
  const second = sign && measure();
  if (at < text.length || (sign && !second)) return undefined;
  return sign && second ? { first, sign, second } : { first };
}

function unitAt(text: string, at: number): WrittenUnit | undefined {
  UNIT_START.lastIndex = at;
  const begun = UNIT_START.exec(text)?.[0];
  if (begun === undefined) return undefined;
  const start = begun.startsWith('-') ? at + 1 : at;
  UNIT_END.lastIndex = start;
  const name = text.slice(start, UNIT_END.exec(text)?.index).trimEnd();
  return { name, start, end: start + name.length };
}
