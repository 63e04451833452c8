import { Lexer } from 'yaml';

/** What stands in a line beside white space; a line break is one too. `start` is its place in the text. */
export type Token = { kind: Kind; text: string; start: number };

type Kind =
  | 'newline'
  | 'comment'
  | 'scalar'
  | 'block'
  | 'quoted'
  | 'dash'
  | 'colon'
  | 'comma'
  | 'open'
  | 'close'
  | 'mark';

/** What the lexer puts before a scalar without quotes. */
const SCALAR = '\u001f';
/** What it puts before a document, and where brackets do not match. */
const DOCUMENT = '\u0002';
const FLOW_ERROR = '\u0018';

const SIGNS: Readonly<Record<string, Kind>> = {
  '-': 'dash',
  ':': 'colon',
  ',': 'comma',
  '{': 'open',
  '[': 'open',
  '}': 'close',
  ']': 'close',
};

/**
 * The tokens of a text without the white space between them; nothing for a text with what a sheet hardly ever has, such as
 * several documents, directives or keys behind question marks.
 */
export function tokensOf(text: string): Token[] | undefined {
  const tokens: Token[] = [];
  let start = 0;
  let isScalar = false;
  let isBlock = false;
  for (const lexed of new Lexer().lex(text)) {
    if (lexed === DOCUMENT) continue;
    if (lexed === SCALAR) {
      isScalar = true;
      continue;
    }
    if (lexed === FLOW_ERROR) return undefined;
    const kind = isScalar ? (isBlock ? 'block' : 'scalar') : kindOf(lexed);
    if (kind === undefined) return undefined;
    if (kind !== 'space' && lexed !== '') tokens.push({ kind, text: lexed, start });
    if (isScalar) isBlock = false;
    else if (/^[|>]/.test(lexed)) isBlock = true;
    isScalar = false;
    start += lexed.length;
  }
  return tokens;
}

function kindOf(lexed: string): Kind | 'space' | undefined {
  const sign = SIGNS[lexed];
  if (sign) return sign;
  if (/^\r?\n$/.test(lexed)) return 'newline';
  if (/^[ \t\ufeff]*$/.test(lexed)) return 'space';
  if (lexed.startsWith('#')) return 'comment';
  if (/^["']/.test(lexed)) return 'quoted';
  return /^[&*!|>]/.test(lexed) ? 'mark' : undefined;
}
