import { uncapital } from '../analysis/figure-words.ts';
import type { Headroom } from '../fit/headroom.ts';
import { echo } from '../text/echo.ts';
import { type Units, unitFor } from '../units/format.ts';
import { findUnit } from '../units/units.ts';
import { type Block, type Page, paragraph, type Span } from './page.ts';

/** Powers are given to 5 hp, or 5 kW; more digits would promise too much. */
const STEP = 5;

/** Checks that are named of those not made, and fields of those not known. */
const MOST_CHECKS = 5;
const MOST_FIELDS = 3;

/** How far the parts of each stage go, and what gives way first. */
export function headroomPage(stages: readonly Headroom[], units: Units): Page {
  if (stages.length === 0) return [paragraph('No stage claims a power.')];
  return stages.flatMap((stage) => stageBlocks(stage, units));
}

function stageBlocks({ stage, power, rungs, already, open, upTo, downTo }: Headroom, units: Units): Block[] {
  const show = (watts: number) => rounded(watts, units, Math.floor);
  const [first] = rungs;
  const tooLittle = downTo !== undefined && downTo > power ? 'too little for its injectors to idle, else ' : '';
  const verdict = already.length
    ? 'not even that:'
    : first
      ? `${tooLittle}good to ${show(first.power)}${first.atBadEnd ? ` (${show(first.atBadEnd)} at the bad end of the tolerances)` : ''}, then:`
      : open.length
        ? `nothing that can be checked gives way up to ${show(upTo)}, but not all of it can be:`
        : `${tooLittle}good beyond ${show(upTo)}, the most that was looked at.`;
  const items: Span[][] = [
    ...already.map(({ message }): Span[] => [message]),
    ...rungs.map(({ power: from, broken, atBadEnd }): Span[] => [
      { strong: show(from) },
      `${atBadEnd ? ` (${show(atBadEnd)} at the bad end)` : ''} ${uncapital(broken.title)}`,
    ]),
    ...(open.length ? [openSpans(open)] : []),
    ...(downTo === undefined ? [] : [[downward(downTo, power, units)]]),
  ];
  return [
    paragraph({ strong: echo(stage) }, `, ${rounded(power, units, Math.round)} claimed: ${verdict}`),
    ...(items.length ? [{ kind: 'list', items } as const] : []),
  ];
}

/** The least power that the injectors idle with, and whether the claim is less already. */
function downward(downTo: number, power: number, units: Units): string {
  const least = rounded(downTo, units, Math.round);
  return downTo > power
    ? `these injectors suit ${least} and more: at idle the pulse is too short`
    : `down to ${least}: with less the injectors' pulse at idle is too short`;
}

/** What is not checked is not good: the checks that wait for a field, and the fields. */
function openSpans(open: Headroom['open']): Span[] {
  const fields = [...new Set(open.flatMap(({ lacks }) => lacks))];
  const some = fields.slice(0, MOST_FIELDS).flatMap((field, index): Span[] => [index ? ', ' : ' ', { code: field }]);
  const more = fields.length > MOST_FIELDS ? ` and ${fields.length - MOST_FIELDS} more fields` : '';
  const titles = open.slice(0, MOST_CHECKS).map(({ title }) => uncapital(title));
  if (open.length > MOST_CHECKS) titles.push(`${open.length - MOST_CHECKS} more`);
  return [`not checked: ${titles.join('; ')}.`, ...(fields.length ? [' Not known yet:', ...some, `${more}.`] : [])];
}

/** A power in steps of 5 of its unit, one that lies within a fiftieth of a step as that. */
export function rounded(watts: number, units: Units, round: (value: number) => number): string {
  const name = unitFor(watts, 'power', units);
  const steps = watts / (findUnit('power', name)?.factor ?? 1) / STEP;
  return `${(Math.abs(steps - Math.round(steps)) < 0.02 ? Math.round(steps) : round(steps)) * STEP} ${name}`;
}
