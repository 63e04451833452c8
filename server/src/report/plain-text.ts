import type { Block, Page, Span } from './page.ts';

/** A page as text without markup, its tables in columns. */
export function plainText(page: Page): string {
  return page.map(block).filter(Boolean).join('\n\n');
}

function block(part: Block): string {
  switch (part.kind) {
    case 'paragraph':
      return part.spans.map(span).join('');
    case 'list':
      return part.items.map((item) => `- ${item.map(span).join('')}`).join('\n');
    case 'table':
      return columns([part.head, ...part.rows]);
    case 'divider':
      return '';
  }
}

function span(part: Span): string {
  if (typeof part === 'string') return part;
  return 'code' in part ? part.code : part.strong;
}

/** Rows with their cells below each other, the first column to the left. */
function columns(rows: readonly (readonly string[])[]): string {
  const cells = rows.map((row) => row.map((cell) => cell.replaceAll(/\s+/g, ' ')));
  const widths = cells[0]?.map((_, column) => Math.max(...cells.map((row) => row[column]?.length ?? 0))) ?? [];
  return cells
    .map((row) => row.map((cell, column) => cell[column === 0 ? 'padEnd' : 'padStart'](widths[column] ?? 0)).join('  '))
    .join('\n');
}
