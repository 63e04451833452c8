import type { Units } from '../units/format.ts';
import { type FuelPath, fuelPathSvg, fuelPathTable } from './fuel-path.ts';
import { type Ladder, ladderLegend, ladderSvg, ladderTable } from './ladder.ts';
import type { Block } from './page.ts';
import { legendOf, type Plot, plotSvg, plotTable } from './plot.ts';

/** What a report draws, as plain data in SI. */
export type Drawing = Plot | Ladder | FuelPath;

/** A drawing as SVG that stands alone: no script, no style sheet, in the color of the text around it. */
export function svgOf(drawing: Drawing, units: Units, id: string): string {
  switch (drawing.kind) {
    case 'plot':
      return plotSvg(drawing, units, id);
    case 'ladder':
      return ladderSvg(drawing, units, id);
    case 'fuel-path':
      return fuelPathSvg(drawing, units, id);
  }
}

/** What a drawing shows, in words and numbers. */
export function numbersOf(drawing: Drawing, units: Units): Block {
  switch (drawing.kind) {
    case 'plot':
      return plotTable(drawing, units);
    case 'ladder':
      return ladderTable(drawing, units);
    case 'fuel-path':
      return fuelPathTable(drawing, units);
  }
}

/** The drawing's title with what its signs stand for. */
export function captionOf(drawing: Drawing): string {
  const legend = drawing.kind === 'plot' ? legendOf(drawing) : drawing.kind === 'ladder' ? ladderLegend : [];
  return [drawing.title, ...(legend.length ? [legend.join('; ')] : [])].map((text) => `${text}.`).join(' ');
}
