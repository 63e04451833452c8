import type { Units } from '../units/format.ts';
import { captionOf, numbersOf } from './drawing.ts';
import type { Section } from './html.ts';
import { type Page, paragraph } from './page.ts';

/** A report as one page, its drawings as tables. */
export function reportPage(title: string, sections: readonly Section[], units: Units): Page {
  const parts = sections.flatMap(
    ({ heading, page, drawings }): Page => [
      paragraph({ strong: heading }),
      ...page,
      ...drawings.flatMap((drawing) => [paragraph(captionOf(drawing)), numbersOf(drawing, units)]),
    ],
  );
  return [paragraph({ strong: title }), ...parts];
}
