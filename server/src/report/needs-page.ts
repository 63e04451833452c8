import { uncapital } from '../analysis/figure-words.ts';
import { INCH } from '../engineering/constants.ts';
import type { Assumed } from '../fit/build.ts';
import type { Need, Needs } from '../fit/needs.ts';
import type { Broken } from '../fit/trials.ts';
import { pathText } from '../sheet/entry.ts';
import { fieldSchema } from '../sheet/path.ts';
import { quoted } from '../text/echo.ts';
import { formatEnd, formatGiven, formatIn, formatValue, type Units, unitFor } from '../units/format.ts';
import { isQuantityValue } from '../units/quantity.ts';
import { type Block, type Page, paragraph, prose, type Span } from './page.ts';

/** What a build needs, part by part, with what makes each end, and what is assumed for it. */
export function needsPage({ needs, assumed }: Needs, units: Units): Page {
  const parts = [...new Set(needs.map(({ part }) => part))];
  return [
    ...parts.flatMap((part): Block[] => [
      paragraph({ strong: part }),
      { kind: 'list', items: needs.filter((need) => need.part === part).map((need) => needSpans(need, units)) },
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
      items: assumed.map(({ place, value, because }) => [
        { code: pathText(place) },
        ` ${valueText(value)}: ${because}`,
      ]),
    },
  ];
}

function valueText(value: Assumed['value']): string {
  if (!Array.isArray(value)) return String(value);
  return value.map((pair) => (Array.isArray(pair) ? [...pair].reverse().join(' at ') : String(pair))).join(', ');
}

function needSpans(need: Need, units: Units): Span[] {
  const texts = need.asks === 'number' ? numberTexts(need, units) : choiceTexts(need);
  return [`${need.name}: `, ...prose(texts.join(' '))];
}

/** What a number of a part must be, in one line without its reasons. */
export function needLine(need: Need, units: Units): Span[] {
  if (need.asks !== 'number') return [];
  const { low, high } = need.window;
  const isOpen = !low || !high || low.value <= high.value;
  return [
    { strong: 'Needs:' },
    ` ${need.name} ${isOpen ? `${rangeText(need, units)}${sizesText(need, units)}` : 'that no value meets'}.`,
  ];
}

type NumberNeed = Extract<Need, { asks: 'number' }>;

function numberTexts(need: NumberNeed, units: Units): string[] {
  const { low, high, standing } = need.window;
  const collide = low && high && low.value > high.value;
  const show = (value: number, way: 'up' | 'down') => shown(need, value, units, way);
  const range = collide
    ? `none does: it would have to be at least ${show(low.value, 'up')} and at most ${show(high.value, 'down')}.`
    : `${rangeText(need, units)}${sizesText(need, units)}.`;
  const [less, more] = need.about.dimension === 'wire-size' ? ['Thinner', 'Thicker'] : ['Less', 'More'];
  return [
    range,
    ...(low ? [`${less}: ${brokenText(low.broken)}.`] : []),
    ...(high ? [`${more}: ${brokenText(high.broken)}.`] : []),
    ...(standing.length ? [`No value mends: ${brokenText(standing)}.`] : []),
    ...(collide || standing.length ? waysText([...(low?.broken ?? []), ...(high?.broken ?? []), ...standing]) : []),
    ...presentTexts(need, units),
  ];
}

function shown({ about }: NumberNeed, value: number, units: Units, way: 'up' | 'down'): string {
  return formatEnd(value, about.dimension, units, way, about.shown);
}

/** A size that is sold, as it is. */
function sold({ about: { dimension, shown: unit } }: NumberNeed, value: number, units: Units): string {
  return unit ? formatIn(value, dimension, unit) : formatGiven(value, dimension, units);
}

function rangeText(need: NumberNeed, units: Units): string {
  const { low, high } = need.window;
  const least = low && shown(need, low.value, units, 'up');
  const most = high && shown(need, high.value, units, 'down');
  if (least && most) return least === most ? least : `${least} to ${most}`;
  if (least) return `${least} or ${need.about.dimension === 'wire-size' ? 'thicker' : 'more'}`;
  return most ? `${most} or less` : 'any';
}

function sizesText(need: NumberNeed, units: Units): string {
  const texts = need.sizes.map((size) => fraction(need, size, units) ?? sold(need, size, units));
  if (texts.length === 0) return '';
  const some = texts.length > 4 ? [...texts.slice(0, 3), `... ${texts.at(-1)}`] : texts;
  return ` (sizes: ${some.join(', ')})`;
}

/** A bore in inches as hose is sold. */
function fraction({ about }: NumberNeed, size: number, units: Units): string | undefined {
  if (unitFor(size, 'length', units) !== 'in' || about.dimension !== 'length' || about.shown) return undefined;
  const sixteenths = (size / INCH) * 16;
  if (Math.abs(sixteenths - Math.round(sixteenths)) > 1e-6 || sixteenths >= 16) return undefined;
  const divisor = [8, 4, 2, 1].find((by) => Math.round(sixteenths) % by === 0) ?? 1;
  return `${Math.round(sixteenths) / divisor}/${16 / divisor} in`;
}

function presentTexts(need: NumberNeed, units: Units): string[] {
  const { present, isAssumed } = need;
  if (!isQuantityValue(present)) return [];
  const { dimension, shown: unit } = need.about;
  const taken = unit ? formatIn(present.value, dimension, unit) : formatValue(present.value, dimension, units);
  return [isAssumed ? `Taken here: ${taken}.` : `The sheet has ${present.text}.`];
}

function choiceTexts({ choices, field, present, isAssumed }: Extract<Need, { asks: 'choice' }>): string[] {
  const fine = choices.filter(({ broken }) => broken.length === 0).map(({ value }) => word(value));
  const isTruth = fieldSchema(field)?.type === 'boolean';
  const reasons = new Map<string, string[]>();
  for (const { value, broken } of choices) {
    if (broken.length === 0) continue;
    const reason = brokenText(broken);
    reasons.set(reason, [...(reasons.get(reason) ?? []), word(value)]);
  }
  const first = fine.length === 0 ? 'none of the choices does.' : `${listed(fine, 'or')}.`;
  const because = [...reasons].map(
    ([reason, words]) => `${isTruth ? 'Otherwise' : `Not ${listed(words, 'or')}`}: ${reason}.`,
  );
  const ways = fine.length === 0 ? waysText(choices.flatMap(({ broken }) => broken)) : [];
  const has =
    present === undefined
      ? []
      : [`${isAssumed ? 'Taken here' : 'The sheet has'}: ${word(present as string | boolean)}.`];
  return [first, ...because, ...ways, ...has];
}

/** What is broken, each rule once with its stages, unless it is broken in all of them. */
function brokenText(broken: readonly Broken[]): string {
  const titles = new Map<string, Broken[]>();
  for (const one of broken) titles.set(one.title, [...(titles.get(one.title) ?? []), one]);
  return [...titles]
    .map(([title, all]) => {
      const stages = all.some(({ isEverywhere }) => isEverywhere)
        ? ''
        : `, in ${listed(
            all.map(({ stage }) => quoted(stage)),
            'and',
          )}`;
      const days = [...new Set(all.flatMap(({ day }) => day ?? []))].map((day) => ` on ${day}`);
      return `${uncapital(title)}${days.join(' and')}${stages}`;
    })
    .join('; ');
}

function waysText(broken: readonly Broken[]): string[] {
  const ways = [...new Set(broken.flatMap(({ ways }) => ways.map(({ title }) => title)))].slice(0, 3);
  return ways.length ? [`What would open it: ${ways.join('; ')}.`] : [];
}

function word(value: string | boolean): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return value.replaceAll('-', ' ');
}

function listed(words: readonly string[], last: 'and' | 'or'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
