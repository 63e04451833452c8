import type { Units } from '../units/format.ts';
import { captionOf, type Drawing, numbersOf, svgOf } from './drawing.ts';
import type { Block, Page, Span } from './page.ts';
import { escaped } from './svg.ts';

/** A part of a report: its heading, its page, what is drawn in it, and whether it is a mere starting point, as each printed page of it then says. */
export type Section = { heading: string; page: Page; drawings: readonly Drawing[]; isStartingPoint?: boolean };

const STYLE = `
:root { color-scheme: light dark; }
body { font: 15px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.7rem; } h2 { font-size: 1.25rem; margin-top: 2.2rem; border-bottom: 1px solid; }
table { border-collapse: collapse; margin: 0.8rem 0; } .wide { overflow-x: auto; } caption { text-align: left; font-weight: bold; }
th, td { border-bottom: 1px solid #8885; padding: 0.2rem 0.7rem 0.2rem 0; text-align: left; vertical-align: top; }
code { font-family: ui-monospace, monospace; font-size: 0.92em; }
code { overflow-wrap: anywhere; }
figure { margin: 1rem 0; } figure table { font-size: 0.87em; }
svg { display: block; max-width: 100%; height: auto; } figcaption { font-size: 0.9em; }
.caution { border: 1px solid; padding: 0.4rem 0.8rem; }
@page { margin: 15mm 12mm 18mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }
@page starting { @bottom-left { content: "A starting point for whoever tunes the engine, never a finished tune"; font: 9pt sans-serif; } }
@media print {
  body { margin: 0; max-width: none; font-size: 10pt; } .wide { overflow: visible; }
  h2, svg, figcaption, p:has(> strong:only-child), tbody tr:first-child, tbody tr:nth-last-child(2) { break-after: avoid; }
  svg, figcaption, tr, li { break-inside: avoid; } p, li { orphans: 3; widows: 3; } thead { display: table-header-group; }
  .starting { page: starting; }
}
`;

/** A report as one file that loads nothing, runs nothing and prints. */
export function htmlDocument(title: string, sections: readonly Section[], units: Units): string {
  const body = sections.map((section, index) => sectionHtml(section, index, units)).join('\n');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
${body}
</main>
</body>
</html>
`;
}

function sectionHtml({ heading, page, drawings, isStartingPoint }: Section, index: number, units: Units): string {
  const figures = drawings.map((drawing, number) => figureHtml(drawing, `drawing-${index}-${number}`, units));
  const starting = isStartingPoint ? ' class="starting"' : '';
  return `<section${starting}>\n<h2>${escaped(heading)}</h2>\n${[...page.map(block), ...figures].join('\n')}\n</section>`;
}

function figureHtml(drawing: Drawing, id: string, units: Units): string {
  const caption = escaped(captionOf(drawing));
  return `<figure>\n${svgOf(drawing, units, id)}\n<figcaption>${caption}</figcaption>\n${block(numbersOf(drawing, units))}\n</figure>`;
}

function block(part: Block): string {
  switch (part.kind) {
    case 'paragraph':
      return `<p>${part.spans.map(span).join('')}</p>`;
    case 'list':
      return `<ul>${part.items.map((item) => `<li>${item.map(span).join('')}</li>`).join('')}</ul>`;
    case 'table': {
      const isWide = part.head.length > 3;
      const head = part.head.map((cell) => `<th scope="col">${escaped(cell)}</th>`).join('');
      const rows = part.rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('');
      const table = `<table><thead><tr>${head}</tr></thead><tbody>${rows}</tbody></table>`;
      return isWide
        ? `<div class="wide" tabindex="0" role="group" aria-label="Table: ${escaped(part.head.join(', '))}">${table}</div>`
        : table;
    }
    case 'divider':
      return '<hr>';
  }
}

/** A cell up to so many characters stays on one line, so that no number stands without its unit. */
const SHORT = 14;
const NO_BREAK = '\u00a0';

function cell(text: string, index: number): string {
  const shown = escaped(text.length <= SHORT ? text.replaceAll(' ', NO_BREAK) : text).replaceAll(
    /\^([23])(?!\d)/g,
    '<sup>$1</sup>',
  );
  return index === 0 ? `<th scope="row">${shown}</th>` : `<td>${shown}</td>`;
}

function span(part: Span): string {
  if (typeof part === 'string') return escaped(part);
  return 'code' in part ? `<code>${escaped(part.code)}</code>` : `<strong>${escaped(part.strong)}</strong>`;
}
