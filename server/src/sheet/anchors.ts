import { Lexer } from 'yaml';
import type { Range } from '../text/place.ts';

/** A name given to a piece of text by `&`, or taken up by `*`; the name alone, and which giving it belongs to. */
export type AnchorMark = { name: string; range: Range; role: 'given' | 'used'; giving: number | undefined };

/** Marks of the lexer that are not in the text: of a document, of a scalar, of an end that is missing. */
const OUTSIDE: ReadonlySet<string> = new Set(['\u0002', '\u001f', '\u0018']);

/** Every anchor and alias of a text in order; an alias belongs to the last anchor of its name before it. */
export function anchorsIn(text: string): AnchorMark[] {
  if (!text.includes('&') && !text.includes('*')) return [];
  const marks: AnchorMark[] = [];
  const givings = new Map<string, number>();
  let offset = 0;
  let isScalar = false;
  for (const lexeme of new Lexer().lex(text.replaceAll(/\r(?!\n)/g, '\n'))) {
    if (OUTSIDE.has(lexeme)) {
      isScalar = lexeme === '\u001f';
      continue;
    }
    const [sign] = lexeme;
    if (!isScalar && lexeme.length > 1 && (sign === '&' || sign === '*')) {
      const name = lexeme.slice(1);
      if (sign === '&') givings.set(name, marks.length);
      const role = sign === '&' ? 'given' : 'used';
      marks.push({ name, range: { start: offset + 1, end: offset + lexeme.length }, role, giving: givings.get(name) });
    }
    isScalar = false;
    offset += lexeme.length;
  }
  return marks;
}
