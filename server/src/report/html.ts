import type { Units } from '../units/format.ts';
import { captionOf, type Drawing, numbersOf, svgOf } from './drawing.ts';
import type { Block, Page, Span } from './page.ts';
import { escaped } from './svg.ts';

/** A part of a report: its heading, its page, and what is drawn in it. */
export type Section = { heading: string; page: Page; drawings: readonly Drawing[] };

const STYLE = `
:root { color-scheme: light dark; }
body { font: 15px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.7rem; } h2 { font-size: 1.25rem; margin-top: 2.2rem; border-bottom: 1px solid; }
table { border-collapse: collapse; margin: 0.8rem 0; } caption { text-align: left; font-weight: bold; }
th, td { border-bottom: 1px solid #8885; padding: 0.2rem 0.7rem 0.2rem 0; text-align: left; vertical-align: top; }
code { font-family: ui-monospace, monospace; font-size: 0.92em; }
figure { margin: 1rem 0; } svg { max-width: 100%; height: auto; } figcaption { font-size: 0.9em; }
.caution { border: 1px solid; padding: 0.4rem 0.8rem; }
@media print { body { margin: 0; max-width: none; } h2 { break-after: avoid; } figure, tr { break-inside: avoid; } }
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

function sectionHtml({ heading, page, drawings }: Section, index: number, units: Units): string {
  const figures = drawings.map((drawing, number) => figureHtml(drawing, `drawing-${index}-${number}`, units));
  return `<section>\n<h2>${escaped(heading)}</h2>\n${[...page.map(block), ...figures].join('\n')}\n</section>`;
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
      const head = part.head.map((cell) => `<th scope="col">${escaped(cell)}</th>`).join('');
      const rows = part.rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('');
      return `<table><thead><tr>${head}</tr></thead><tbody>${rows}</tbody></table>`;
    }
    case 'divider':
      return '<hr>';
  }
}

function cell(text: string, index: number): string {
  return index === 0 ? `<th scope="row">${escaped(text)}</th>` : `<td>${escaped(text)}</td>`;
}

function span(part: Span): string {
  if (typeof part === 'string') return escaped(part);
  return 'code' in part ? `<code>${escaped(part.code)}</code>` : `<strong>${escaped(part.strong)}</strong>`;
}
