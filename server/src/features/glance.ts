import type { PlacedFinding } from '../checking/finding.ts';
import type { Block, Page, Span } from '../report/page.ts';

// Pixels in the usual editor at its usual font, in a window eighty characters of code wide: measured on screenshots.
const WIDE = 90;
/** Characters of a line of a message, which stands in the letters of code. */
const MESSAGE_WIDE = 74;
const LINE = 19;
const GAP = 8;
const ROW = 23;
const MESSAGE = 8;
const BUTTONS = 24;
/** What a hover shows without scrolling. */
const HIGH = 240;
/** What is left of it under any message: a title and a figure. */
const LEAST = 2 * GAP + LINE + 2 * ROW;

/** The height that is left for what is told of a place under what is found there. */
export function roomUnder(findings: readonly Pick<PlacedFinding, 'message' | 'rule' | 'related'>[]): number {
  if (findings.length === 0) return HIGH;
  const messages = findings.map(({ message, rule, related }) => {
    const lines = [
      `${message} build-sheet(${rule})`,
      ...related.map((one) => `sheet.build.yaml(00, 00): ${one.message}`),
    ];
    const text = lines.reduce((sum, line) => sum + LINE * linesOf(line.length, MESSAGE_WIDE), 0);
    return MESSAGE + GAP * related.length + text;
  });
  return Math.max(
    LEAST,
    messages.reduce((left, height) => left - height, HIGH - BUTTONS),
  );
}

/** As much of a page as a hover has room for, in its order: each block is kept whole, a table or list as far as it fits. */
export function atAGlance(page: Page, room = HIGH): Page {
  let left = room;
  return page.flatMap((block) => {
    const fits = cut(block, left);
    if (fits) left -= heightOf(fits);
    return fits ? [fits] : [];
  });
}

/** Those blocks that there is room for beside others, the first before the later; the first of all in any case. */
export function thoseThatFit(blocks: readonly Block[], room: number): Set<Block> {
  const kept = new Set<Block>();
  let left = room;
  for (const block of blocks) {
    const height = heightOf(block);
    if (height > left && kept.size > 0) continue;
    kept.add(block);
    left -= height;
  }
  return kept;
}

/** The height of blocks one below the other. */
export function heightOf(...page: Page): number {
  return page.reduce((sum, block) => sum + GAP + innerHeight(block), 0);
}

/** A table or list without its last rows, so that it fits; nothing where not even one does. */
function cut(block: Block, room: number): Block | undefined {
  if (heightOf(block) <= room) return block;
  if (block.kind === 'table' && block.rows.length > 1) return cut({ ...block, rows: block.rows.slice(0, -1) }, room);
  if (block.kind === 'list' && block.items.length > 1) return cut({ ...block, items: block.items.slice(0, -1) }, room);
  return undefined;
}

function innerHeight(block: Block): number {
  switch (block.kind) {
    case 'paragraph':
      return LINE * linesOf(lengthOf(block.spans));
    case 'list':
      return block.items.reduce((sum, item) => sum + LINE * linesOf(lengthOf(item) + 4), 0);
    case 'table':
      return ROW * (1 + block.rows.length);
    case 'divider':
      return LINE;
  }
}

function linesOf(length: number, wide = WIDE): number {
  return Math.max(1, Math.ceil(length / wide));
}

/** Characters of a line of text; code stands wider. */
function lengthOf(spans: readonly Span[]): number {
  return spans.reduce((sum, span) => {
    if (typeof span === 'string') return sum + span.length;
    return sum + ('code' in span ? span.code.length * 1.25 : span.strong.length * 1.1);
  }, 0);
}
