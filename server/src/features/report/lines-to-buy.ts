import type { Checked } from '../../checking/checked.ts';
import type { Line } from '../../generated/build-sheet.ts';
import { linesOf, materialName } from '../../remedies/line-class.ts';
import { type Block, paragraph } from '../../report/page.ts';
import { type HosePlan, hosePlan, type Sold } from '../../sheet/hose.ts';
import type { ShelfPart } from '../../sheet/shelf.ts';
import { echo } from '../../text/echo.ts';
import { formatGiven, formatNumber, formatValue, systemOf, type Units } from '../../units/format.ts';

/** One kind of hose or tube with the runs that are cut from it, m, and how it is sold. */
type Lot = { what: string; runs: { name: string; length: number }[]; sold: Sold; isUsual: boolean };

const FOOT = 0.3048;

/** How lines are sold where no catalog says it: hose by the foot or meter, tube in coils. Common practice, from memory. */
const USUAL = {
  us: { hose: FOOT, tube: 25 * FOOT },
  si: { hose: 1, tube: 5 },
} as const;

/** What to buy of every line, of how many lengths, and what is left over when all runs are cut. */
export function linesToBuy(checked: Checked, units: Units): Block[] {
  const lots = lotsOf(checked, units);
  const rows = lots.flatMap(({ what, runs, sold, isUsual }) => {
    const plan = hosePlan(
      sold,
      runs.map(({ length }) => length),
    );
    return [
      [
        what,
        runs.map(({ name, length }) => `${name} ${formatGiven(length, 'length', units)}`).join(' and '),
        ...bought(plan, sold, isUsual, units),
      ],
    ];
  });
  if (rows.length === 0) return [];
  const usual = lots.some(({ isUsual }) => isUsual)
    ? ' Where no catalog says how a line is sold, hose is taken by the foot or meter and tube in coils of 25 ft or 5 m: common practice, from memory.'
    : '';
  return [
    { kind: 'table', head: ['to buy', 'for', 'lengths', 'left over', 'cost'], rows },
    paragraph(`Every run is cut in one piece; no slack is counted.${usual}`),
  ];
}

function bought(plan: HosePlan | undefined, { sold, costPer }: Sold, isUsual: boolean, units: Units): string[] {
  if (!plan || !costPer) return ['no length that is sold is long enough', '-', '-'];
  const each = formatGiven(costPer.value, 'length', units);
  const lengths =
    sold === 'length' ? formatGiven(plan.pieces * costPer.value, 'length', units) : `${plan.pieces} of ${each}`;
  const left = plan.left < 5e-3 ? 'nothing' : formatValue(plan.left, 'length', units);
  const cost = plan.cost === undefined ? (isUsual ? '-' : 'not known') : formatNumber(plan.cost);
  return [lengths, left, cost];
}

/** The runs of the last stage by what they are cut from: the part of a catalog, else bore and material. */
function lotsOf({ sheet, plan }: Checked, units: Units): Lot[] {
  const stage = plan.at(-1);
  if (!stage) return [];
  const lots = new Map<string, Lot>();
  for (const { name, line } of linesOf(stage.sheet.values)) {
    const length = line.length?.value;
    if (length === undefined) continue;
    const place = stage.sheet.placeOf(`fuel-system.${name}`);
    const part = sheet.parts?.taken.find(({ section, part }) => part && section.join('.') === place.join('.'))?.part;
    const lot = part ? ofPart(part) : ofLine(line, units);
    if (!lot) continue;
    const known = lots.get(lot.what) ?? lot;
    known.runs.push({ name, length });
    lots.set(lot.what, known);
  }
  return [...lots.values()];
}

function ofPart(part: ShelfPart): Lot | undefined {
  return part.costPer && { what: `${part.id} ${echo(part.name ?? '')}`.trim(), runs: [], sold: part, isUsual: false };
}

function ofLine({ material, 'inside-diameter': bore }: Line, units: Units): Lot | undefined {
  if (!material || !bore) return undefined;
  const isTube = material.endsWith('-tube');
  const each = USUAL[systemOf(units)][isTube ? 'tube' : 'hose'];
  const costPer = { value: each, low: each, high: each, dimension: 'length', unit: 'm', text: `${each} m` } as const;
  const sold: Sold = { sold: isTube ? 'piece' : 'length', cost: undefined, costPer };
  return { what: `${materialName[material]}, ${bore.text} bore`, runs: [], sold, isUsual: true };
}
