import type { Range } from '../../text/place.ts';

/** A text shorter than this is taken whole. */
const LONG = 20_000;

/**
 * A long text without what is far from an offset: long sections elsewhere lose their value and a long list around it the
 * other items, so that it can be parsed anew at every keystroke. `before` is how much shorter the text before the offset is.
 */
export function excerpt(text: string, offset: number): { text: string; before: number } {
  if (text.length < LONG) return { text, before: 0 };
  let before = 0;
  const sections = stretches(text, /^[^\s#\-\]}]/gm).map(({ start, end }) => {
    const section = text.slice(start, end);
    if (start <= offset && offset <= end) {
      const near = withoutOtherItems(section, offset - start);
      before += near.before;
      return near.text;
    }
    const short = section.length < LONG ? section : `${/^[^:\n]*/.exec(section)?.[0]}: ~\n`;
    if (end < offset) before += section.length - short.length;
    return short;
  });
  return { text: sections.join(''), before };
}

function withoutOtherItems(section: string, offset: number): { text: string; before: number } {
  if (section.length < LONG) return { text: section, before: 0 };
  const indent = /^ *(?=- )/m.exec(section)?.[0] ?? '';
  const items = stretches(section, new RegExp(`^${indent}- `, 'gm'));
  const head = items[0]?.end ?? 0;
  const own = items.slice(1).find(({ start, end }) => start <= offset && offset <= end);
  if (!own || offset < head) return { text: section, before: 0 };
  return { text: section.slice(0, head) + section.slice(own.start, own.end), before: own.start - head };
}

/** The stretches of a text that begin where the pattern matches; the first at its beginning. */
function stretches(text: string, pattern: RegExp): Range[] {
  const starts = [...text.matchAll(pattern)].map(({ index }) => index).filter((index) => index > 0);
  return [0, ...starts].map((start, index) => ({ start, end: starts[index] ?? text.length }));
}
