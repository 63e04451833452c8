import { Lexer } from 'yaml';

/** What the lexer puts before a scalar that is written without quotes. */
const SCALAR = '\u001f';

/** Every comment of a text, in its order. */
export function commentsOf(text: string): string[] {
  const comments: string[] = [];
  let before = '';
  for (const token of new Lexer().lex(text)) {
    if (token.startsWith('#') && before !== SCALAR) comments.push(token.trimEnd());
    before = token;
  }
  return comments;
}
