import { markdown } from '../report/markdown.ts';
import type { Page } from '../report/page.ts';
import { plainText } from '../report/plain-text.ts';
import type { Io } from './io.ts';
import { harmless, wrapped } from './wrap.ts';

/** The option that says how a page, or its data, is written. */
export const pageFormat = {
  type: 'string',
  short: 'f',
  value: 'FORMAT',
  choices: ['text', 'markdown', 'json'],
  about: 'how to write it; text, if not said',
} as const;

/** How wide text is where no terminal says it, and the most where one does. */
const USUAL_COLUMNS = 110;
const MOST_COLUMNS = 120;

/** A page as it is written to a terminal, or as Markdown. */
export function pageText(page: Page, format: 'text' | 'markdown', { columns = USUAL_COLUMNS }: Io): string {
  if (format === 'markdown') return `${markdown(page)}\n`;
  const lines = plainText(page).split('\n').map(harmless);
  return `${lines.map((line) => indented(line, Math.min(columns, MOST_COLUMNS))).join('\n')}\n`;
}

/** A line in as many as it takes, those after the first below its text. */
function indented(line: string, columns: number): string {
  const indent = line.startsWith('- ') ? '  ' : '';
  return wrapped(line, columns - indent.length).replaceAll('\n', `\n${indent}`);
}
