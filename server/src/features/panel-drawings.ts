import type { Checked } from '../checking/checked.ts';
import type { Headroom } from '../fit/headroom.ts';
import { captionOf, type Drawing, numbersOf, svgOf } from '../report/drawing.ts';
import { unitsIn } from '../sheet/house.ts';
import type { Units } from '../units/format.ts';
import { ladders } from './report/ladder.ts';
import { sparkPlots } from './report/starting.ts';
import { topics } from './report.ts';

/** A drawing of the report as SVG, what its signs stand for, and its numbers as a table. */
export type PanelDrawing = {
  svg: string;
  caption: string;
  numbers: { head: readonly string[]; rows: readonly (readonly string[])[] };
};

/** The report's curves of a sheet, and the way of the fuel. */
export function panelCurves({ plan, house }: Checked): PanelDrawing[] {
  const drawings = [...topics.flatMap(({ curves }) => curves(plan)), ...sparkPlots(plan)];
  return drawn(drawings, unitsIn(house), 'curve');
}

/** How far the parts of a sheet go, as the report draws it. */
export function panelLadder({ house }: Checked, headroom: readonly Headroom[]): PanelDrawing[] {
  return drawn(ladders(headroom), unitsIn(house), 'ladder');
}

function drawn(drawings: readonly Drawing[], units: Units, id: string): PanelDrawing[] {
  return drawings.map((drawing, index) => {
    const numbers = numbersOf(drawing, units);
    return {
      svg: svgOf(drawing, units, `${id}-${index}`),
      caption: captionOf(drawing),
      numbers: numbers.kind === 'table' ? { head: numbers.head, rows: numbers.rows } : { head: [], rows: [] },
    };
  });
}
