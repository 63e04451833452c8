import { comparisonData } from '../report/comparison-json.ts';
import { comparisonPage, outcomeOf, verdict } from '../report/comparison-page.ts';
import { htmlDocument } from '../report/html.ts';
import { markdown } from '../report/markdown.ts';
import { type Page, paragraph, prose, type Span } from '../report/page.ts';
import { echo } from '../text/echo.ts';
import { plainly } from '../text/markdown.ts';
import { severities } from './check-result.ts';
import type { ComparedSheet } from './compare-files.ts';
import type { Io } from './io.ts';
import { pageText } from './page-text.ts';

/** A host takes no comment of more characters; what has no room is told by its verdict alone. */
const MOST_OF_A_COMMENT = 60_000;

type Part = { heading: string; verdict: string; page: Page };

/** How a comparison can be written. */
export const comparisonTexts = {
  text: (sheets: readonly ComparedSheet[], io: Io) => textOf(sheets, io),
  markdown: (sheets: readonly ComparedSheet[]) => markdownOf(sheets),
  html: (sheets: readonly ComparedSheet[]) => {
    const sections = partsOf(sheets).map(({ heading, page }) => ({ heading, page, drawings: [] }));
    const head = { heading: 'All in all', page: [paragraph(summary(sheets))], drawings: [] };
    return htmlDocument('What the change does', sheets.length === 1 ? sections : [head, ...sections], 'us');
  },
  json: (sheets: readonly ComparedSheet[]) => `${JSON.stringify(dataOf(sheets), null, 2)}\n`,
};

/** All sheets in one sentence. */
export function summary(sheets: readonly ComparedSheet[]): string {
  const counts = new Map<string, number>();
  for (const sheet of sheets) {
    const word = wordOf(sheet);
    counts.set(word, (counts.get(word) ?? 0) + 1);
  }
  const order = ['worse', 'mixed', 'less certain', 'better', 'changed', 'no effect', 'added', 'removed', 'same'];
  const list = order.flatMap((word) => (counts.has(word) ? [`${counts.get(word)} ${word}`] : []));
  return sheets.length === 0 ? 'No sheet on either side.' : `${sheets.length} sheets: ${list.join(', ')}.`;
}

function wordOf(sheet: ComparedSheet): string {
  return sheet.kind === 'both' ? outcomeOf(sheet.comparison) : sheet.kind;
}

/** What there is to say of each sheet that is not the same. */
function partsOf(sheets: readonly ComparedSheet[], as: 'table' | 'list' = 'table'): Part[] {
  return sheets.flatMap((sheet): Part[] => {
    const heading = [sheet.path, ...(sheet.title === undefined ? [] : [echo(sheet.title)])].join(': ');
    if (sheet.kind === 'same')
      return sheets.length > 1
        ? []
        : [{ heading, verdict: 'No difference.', page: [paragraph({ strong: 'No difference.' })] }];
    if (sheet.kind !== 'both') return [loneOf(sheet, heading)];
    const named = sheet.renamedFrom === undefined ? heading : `${heading} (was ${sheet.renamedFrom})`;
    return [{ heading: named, verdict: verdict(sheet.comparison), page: comparisonPage(sheet.comparison, as) }];
  });
}

function loneOf({ kind, findings }: ComparedSheet & { kind: 'added' | 'removed' }, heading: string): Part {
  const counts = severities.flatMap((severity) => {
    const count = findings.filter((one) => one.severity === severity && one.accepted === undefined).length;
    return count > 0 ? [`${count} ${severity}`] : [];
  });
  const found = counts.length > 0 ? counts.join(', ') : 'nothing found';
  const sentence = `${kind === 'added' ? 'A new sheet' : 'A sheet that is taken out'}: ${found}.`;
  const items = findings
    .filter(({ accepted }) => accepted === undefined)
    .map(({ severity, message, code }): Span[] => [{ strong: severity }, ' ', ...prose(message), ' ', { code }]);
  const list: Page = kind === 'added' && items.length > 0 ? [{ kind: 'list', items }] : [];
  return { heading, verdict: sentence, page: [paragraph({ strong: sentence }), ...list] };
}

function textOf(sheets: readonly ComparedSheet[], io: Io): string {
  const parts = partsOf(sheets, 'list').map(({ heading, page }) => pageText([paragraph(heading), ...page], 'text', io));
  const head = sheets.length === 1 ? [] : [pageText([paragraph(summary(sheets))], 'text', io)];
  return [...head, ...parts].join('\n');
}

function markdownOf(sheets: readonly ComparedSheet[]): string {
  const lines: string[] = sheets.length === 1 ? [] : [plainly(summary(sheets))];
  let length = 0;
  for (const { heading, verdict: sentence, page } of partsOf(sheets)) {
    const whole = `### ${plainly(heading)}\n\n${markdown(page)}`;
    const hasRoom = length + whole.length <= MOST_OF_A_COMMENT;
    const text = hasRoom ? whole : `### ${plainly(heading)}\n\n${plainly(sentence)}`;
    length += text.length;
    if (length <= MOST_OF_A_COMMENT) lines.push(text);
  }
  if (length > MOST_OF_A_COMMENT) lines.push('There is no room here for the other sheets.');
  return `${lines.join('\n\n')}\n`;
}

/** Everything, for programs; `schemas/output/compare.schema.json` describes it. */
function dataOf(sheets: readonly ComparedSheet[]) {
  return {
    version: 1,
    sheets: sheets.map((sheet) => {
      const { path, title, kind } = sheet;
      const about = { path, ...(title !== undefined && { title }), outcome: wordOf(sheet) };
      if (kind === 'same') return about;
      if (kind !== 'both') {
        const findings = sheet.findings.map(({ code, severity, message, field, stages, accepted }) => ({
          rule: code,
          severity,
          message,
          field,
          stages,
          ...(accepted !== undefined && { accepted }),
        }));
        return { ...about, findings };
      }
      const { comparison, renamedFrom } = sheet;
      return {
        ...about,
        ...(renamedFrom !== undefined && { renamedFrom }),
        verdict: verdict(comparison),
        ...comparisonData(comparison),
      };
    }),
  };
}
