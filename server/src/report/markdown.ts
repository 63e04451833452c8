import { codeSpan, plainly } from '../text/markdown.ts';
import type { Block, Page, Span } from './page.ts';

/** A page as Markdown. */
export function markdown(page: Page): string {
  return page.map(block).filter(Boolean).join('\n\n');
}

function block(part: Block): string {
  switch (part.kind) {
    case 'paragraph':
      return part.spans.map(span).join('');
    case 'list':
      return part.items.map((item) => `- ${item.map(span).join('')}`).join('\n');
    case 'table':
      return [
        row(part.head),
        `|${part.head.map((_, column) => rule(part.rows, column)).join('|')}|`,
        ...part.rows.map(row),
      ].join('\n');
    case 'divider':
      return '---';
  }
}

function span(part: Span): string {
  if (typeof part === 'string') return plainly(part);
  return 'code' in part ? codeSpan(part.code) : `**${plainly(part.strong)}**`;
}

/** The rule under the head of a column: figures stand to the right, words to the left. */
function rule(rows: readonly (readonly string[])[], column: number): string {
  const cells = rows.map((cells) => cells[column] ?? '');
  const isFigures = cells.some((cell) => /\d/.test(cell)) && cells.every((cell) => /^([^a-z]*\d.*|-|)$/i.test(cell));
  return column > 0 && isFigures ? '---:' : ':---';
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => plainly(cell).trim()).join(' | ')} |`;
}
