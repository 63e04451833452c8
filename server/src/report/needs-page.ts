import type { Assumed } from '../fit/build.ts';
import type { Need, Needs } from '../fit/needs.ts';
import type { Broken } from '../fit/trials.ts';
import type { End } from '../fit/window.ts';
import { pathText } from '../sheet/entry.ts';
import { fieldSchema } from '../sheet/path.ts';
import { quoted } from '../text/echo.ts';
import { formatBeyond, formatValue } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { type Block, type Page, paragraph, prose, type Span } from './page.ts';

type System = 'us' | 'si';

/** What a build needs, part by part, with what makes each end, and what is assumed for it. */
export function needsPage({ needs, assumed }: Needs, system: System): Page {
  const parts = [...new Set(needs.map(({ part }) => part))];
  return [
    ...parts.flatMap((part): Block[] => [
      paragraph({ strong: part }),
      { kind: 'list', items: needs.filter((need) => need.part === part).map((need) => needSpans(need, system)) },
    ]),
    ...assumedBlocks(assumed),
  ];
}

/** What is assumed where the sheet says nothing, with the reasons. */
export function assumedBlocks(assumed: readonly Assumed[]): Block[] {
  if (assumed.length === 0) return [];
  const count = assumed.length === 1 ? 'one assumed value' : `${assumed.length} assumed values`;
  return [
    paragraph({ strong: `Stands on ${count}` }),
    {
      kind: 'list',
      items: assumed.map(({ place, value, because }) => [{ code: pathText(place) }, ` ${valueText(value)}: ${because}`]),
    },
  ];
}

function valueText(value: Assumed['value']): string {
  if (!Array.isArray(value)) return String(value);
  return value.map((pair) => (Array.isArray(pair) ? [...pair].reverse().join(' at ') : String(pair))).join(', ');
}

function needSpans(need: Need, system: System): Span[] {
  const texts = need.asks === 'number' ? numberTexts(need, system) : choiceTexts(need);
  return [`${need.name}: `, ...prose(texts.join(' '))];
}

type NumberNeed = Extract<Need, { asks: 'number' }>;

function numberTexts(need: NumberNeed, system: System): string[] {
  const { window, about } = need;
  const { low, high, standing } = window;
  const collide = low && high && low.value > high.value;
  const range = collide ? collision(low, high, about.dimension, system) : `${rangeText(need, system)}${sizesText(need, system)}.`;
  return [
    range,
    ...(low ? [`Less: ${brokenText(low.broken)}.`] : []),
    ...(high ? [`More: ${brokenText(high.broken)}.`] : []),
    ...(standing.length ? [`No value mends: ${brokenText(standing)}.`] : []),
    ...(collide || standing.length ? waysText([...(low?.broken ?? []), ...(high?.broken ?? []), ...standing]) : []),
    ...presentTexts(need, system),
  ];
}

function collision(low: End, high: End, dimension: Dimension, system: System): string {
  const [least, most] = [formatBeyond(low.value, dimension, system, 'up'), formatBeyond(high.value, dimension, system, 'down')];
  return `none does: it would have to be at least ${least} and at most ${most}.`;
}

function rangeText({ window: { low, high }, about: { dimension } }: NumberNeed, system: System): string {
  const least = low && formatBeyond(low.value, dimension, system, 'up');
  const most = high && formatBeyond(high.value, dimension, system, 'down');
  if (least && most) return `${least} to ${most}`;
  if (least) return `${least} or more`;
  return most ? `${most} or less` : 'any';
}

function sizesText({ sizes, about: { dimension } }: NumberNeed, system: System): string {
  const shown = sizes.slice(0, 3).map((size) => formatValue(size, dimension, system));
  if (shown.length === 0) return '';
  const last = sizes.length > 3 ? ` ... ${formatValue(sizes.at(-1) as number, dimension, system)}` : '';
  return ` (sizes: ${shown.join(', ')}${last})`;
}

function presentTexts({ present, isAssumed, about }: NumberNeed, system: System): string[] {
  if (typeof present !== 'object' || present === null || !('text' in present)) return [];
  const { value } = present as { value: number };
  const shown = formatValue(value, about.dimension, system);
  return [isAssumed ? `Taken here: ${shown}.` : `The sheet has ${shown}.`];
}

function choiceTexts({ choices, field, present }: Extract<Need, { asks: 'choice' }>): string[] {
  const fine = choices.filter(({ broken }) => broken.length === 0).map(({ value }) => word(value));
  const not = choices.filter(({ broken }) => broken.length > 0);
  const has = present === undefined ? [] : [`The sheet has ${word(present as string | boolean)}.`];
  const isTruth = fieldSchema(field)?.type === 'boolean';
  const because = not.map(({ value, broken }) =>
    isTruth ? `Otherwise: ${brokenText(broken)}.` : `Not ${word(value)}: ${brokenText(broken)}.`,
  );
  const first = fine.length === 0 ? 'none of the choices does.' : `${listed(fine, 'or')}.`;
  return [first, ...because, ...(fine.length === 0 ? waysText(not.flatMap(({ broken }) => broken)) : []), ...has];
}

/** What is broken, each rule once with its stages; where it is broken in all of them, without. */
function brokenText(broken: readonly Broken[]): string {
  const titles = new Map<string, string[]>();
  for (const { title, stage } of broken) titles.set(title, [...(titles.get(title) ?? []), stage]);
  return [...titles]
    .map(([title, stages]) => `${title.charAt(0).toLowerCase()}${title.slice(1)}, in ${listed(stages.map(quoted), 'and')}`)
    .join('; ');
}

function waysText(broken: readonly Broken[]): string[] {
  const ways = [...new Set(broken.flatMap(({ ways }) => ways))].slice(0, 3);
  return ways.length ? [`What would open it: ${ways.join('; ')}.`] : [];
}

function word(value: string | boolean): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return value.replaceAll('-', ' ');
}

function listed(words: readonly string[], last: 'and' | 'or'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
