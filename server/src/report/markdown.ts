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
      return [row(part.head), `|---|${'---:|'.repeat(part.head.length - 1)}`, ...part.rows.map(row)].join('\n');
    case 'divider':
      return '---';
  }
}

function span(part: Span): string {
  if (typeof part === 'string') return plainly(part);
  return 'code' in part ? codeSpan(part.code) : `**${plainly(part.strong)}**`;
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => plainly(cell).trim()).join(' | ')} |`;
}
