import { capital } from '../../analysis/figure-words.ts';
import type { Checked } from '../../checking/checked.ts';
import type { BuildSheet } from '../../generated/build-sheet.ts';
import { costSaid, planCost } from '../../remedies/plan-cost.ts';
import { price } from '../../report/fit-page.ts';
import { type Page, paragraph } from '../../report/page.ts';
import { isFields, type Path } from '../../sheet/path.ts';
import { piecesOf, slotAt } from '../../sheet/slots.ts';
import { echo } from '../../text/echo.ts';
import { tellingFigures } from '../part-figures.ts';

/** `cost`: of all pieces. */
type Part = { slot: string; id: string; name: string; quantity: number; cost: number | undefined; stage: number };

/** The parts to buy, with their ids in the catalogs, their costs as the sheet has them and the stage they come in. */
export function partsPage(checked: Checked): Page {
  const { sheet, plan, house } = checked;
  const parts = partsOf(checked);
  if (parts.length === 0) return [];
  const { currency } = house;
  const nameOf = (stage: number) => echo(plan[stage]?.name ?? '');
  const hasIds = parts.some(({ id }) => id !== '');
  const rows = parts.map(({ slot, id, name, quantity, cost, stage }) => [
    capital(slot),
    ...(hasIds ? [id] : []),
    echo(name),
    String(quantity),
    cost === undefined ? 'not known' : price(cost, currency),
    nameOf(stage),
  ]);
  const { stages = [] } = sheet.values;
  const ofStages = stages.flatMap(({ cost }, index) =>
    cost === undefined
      ? []
      : [['Work and the rest of the stage', ...(hasIds ? [''] : []), '', '', price(cost, currency), nameOf(index)]],
  );
  const unknown = parts.filter(({ cost }) => cost === undefined).length;
  const sum = planCost(plan.map((stage) => stage.sheet)).all;
  const rest = unknown ? `; the cost of ${unknown} of the parts is not known` : '';
  const head = ['part', ...(hasIds ? ['id'] : []), 'what', 'number', 'cost', 'stage'];
  return [
    { kind: 'table', head, rows: [...rows, ...ofStages] },
    ...(sum > 0 ? [paragraph(`Together ${price(sum, currency)}${rest}.`)] : []),
  ];
}

/** What the parts of a stage cost, as far as it is known; empty where no part has a cost. */
export function partsCost(checked: Checked, stage: number): string {
  const parts = partsOf(checked).filter((part) => part.stage === stage);
  const costs = parts.flatMap(({ cost }) => cost ?? []);
  if (costs.length === 0) return '';
  const sum = costs.reduce((total, cost) => total + cost, 0);
  const unknown = parts.length - costs.length;
  return `${price(sum, checked.house.currency)}${unknown ? ` and ${unknown} not known` : ''}`;
}

function partsOf({ sheet, plan }: Checked): Part[] {
  const { stages = [], ...now } = sheet.values;
  const ids = new Map((sheet.parts?.taken ?? []).map(({ section, id }) => [section.join('.'), id]));
  const there = (stage: number) => plan[stage]?.sheet.values ?? now;
  return [
    ...partsIn(now, [], 0, ids, there(0)),
    ...stages.flatMap(({ changes, nitrous }, stage) => [
      ...partsIn(nitrous, ['stages', stage, 'nitrous'], stage, ids, there(stage)),
      ...partsIn(changes, ['stages', stage, 'changes'], stage, ids, there(stage)),
    ]),
  ];
}

/**
 * Every section with a name, a cost or an id of its own, and every slot that the sheet itself describes; `there`: the whole
 * build in that stage.
 */
function partsIn(
  value: unknown,
  path: Path,
  stage: number,
  ids: ReadonlyMap<string, string>,
  there: Partial<BuildSheet>,
): Part[] {
  if (!isFields(value)) return [];
  const { name, cost } = value;
  const id = ids.get(path.join('.')) ?? '';
  const slot = slotAt(path);
  const isDescribed = slot !== undefined && slot.kind !== 'circuit' && path[0] !== 'stages';
  const isPart = typeof name === 'string' || typeof cost === 'number' || id !== '' || isDescribed;
  const inside = Object.entries(value).flatMap(([key, inner]) => partsIn(inner, [...path, key], stage, ids, there));
  if (path.length === 0 || !isPart) return inside;
  const telling = slot ? tellingFigures({ kind: slot.kind, fields: value }).join(', ') : '';
  const part: Part = {
    slot: slot?.title ?? String(path.at(-1)).replaceAll('-', ' '),
    id,
    name: typeof name === 'string' ? name : telling || '-',
    quantity: slot ? piecesOf(slot, there) : 1,
    cost: costSaid(value, slot, there),
    stage,
  };
  return [part, ...inside];
}
