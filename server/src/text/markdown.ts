const CONTROL = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]+/gu;

/**
 * A text as Markdown shows it letter by letter within a line: no markup, image, link, HTML or address in it is one any
 * more. Everything a user wrote goes through this or `codeSpan` before it is put into Markdown.
 */
export function plainly(text: string): string {
  return onOneLine(text)
    .replaceAll(/[\\`*_{}[\]<>|~&]/g, '\\$&')
    .replaceAll(/\$(?=\()/g, '\\$')
    .replaceAll(/:(?=\/\/)/g, '\\:')
    .replaceAll(/(?<=\w)@(?=\w)/g, '\\@')
    .replaceAll(/(?<=\bwww)\./gi, '\\.');
}

/** A text as code on one line, whatever backticks it holds. */
export function codeSpan(text: string): string {
  const line = onOneLine(text);
  const longest = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const pad = /^`|`$|^ .* $/.test(line) || line === '' ? ' ' : '';
  return `${fence}${pad}${line}${pad}${fence}`;
}

/** Without line breaks, other control characters and those that turn the direction of writing. */
function onOneLine(text: string): string {
  return text.replaceAll(CONTROL, ' ');
}
