/** A stretch of text: as it is, as code, or set out. */
export type Span = string | { code: string } | { strong: string };

/** A part of a page. */
export type Block =
  | { kind: 'paragraph'; spans: readonly Span[] }
  | { kind: 'list'; items: readonly (readonly Span[])[] }
  | { kind: 'table'; head: readonly string[]; rows: readonly (readonly string[])[] }
  | { kind: 'divider' };

/** What there is to read of something, without a word on how it is shown. */
export type Page = readonly Block[];

export function paragraph(...spans: readonly Span[]): Block {
  return { kind: 'paragraph', spans };
}

/** A text in which code stands between backticks, as descriptions and messages are written. */
export function prose(text: string): Span[] {
  const parts = text.split('`');
  const isWhole = parts.length % 2 === 1;
  return parts.flatMap((part, index): Span[] => {
    if (index % 2 === 0) return part === '' ? [] : [part];
    return isWhole || index < parts.length - 1 ? [{ code: part }] : [`\`${part}`];
  });
}
