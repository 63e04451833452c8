import type { Choice } from '../fit/choose.ts';
import type { Search } from '../fit/combine.ts';
import type { Missed } from '../fit/missed.ts';
import type { Placing, Shown } from '../fit/option.ts';
import type { Together } from '../fit/together.ts';
import type { Waiting, WaitingCost } from '../fit/waiting.ts';
import type { HosePlan } from '../sheet/hose.ts';
import { echo } from '../text/echo.ts';
import { type Block, type Page, paragraph, prose, type Span } from './page.ts';

/** Parts that miss, and warnings, that are told at most. */
const MOST_MISSED = 3;
const MOST_WARNINGS = 2;

/** Prices in the currency of the house. */
export type Currency = string | undefined;

/** What is bought of a hose that serves several runs. */
export type Hose = HosePlan & { id: string; runs: number };

export function price(cost: number | undefined, currency: Currency): string {
  if (cost === undefined) return 'price not known';
  return `${cost.toFixed(2)}${currency ? ` ${currency}` : ''}`;
}

/** What the catalogs have for one slot, and why the rest does not do it. */
export function choicePage(choice: Choice, currency: Currency): Page {
  return [
    paragraph({ strong: capital(choice.slot.title) }, headOf(choice)),
    ...optionList(choice.options, currency),
    ...missedList(choice.missed),
  ];
}

function headOf({ options, tried, alsoFit, present }: Choice): string {
  const now = present ? ` (now ${present})` : '';
  if (tried === 0) return `${now}: the catalogs have none.`;
  if (options.length === 0) return `${now}: none of ${tried} does it.`;
  const others = alsoFit > 0 ? `, ${alsoFit} more that ${alsoFit === 1 ? 'is' : 'are'} no better at anything` : '';
  return `${now}: of ${tried}, these do it in every stage${others}:`;
}

function optionList(options: readonly Shown[], currency: Currency): Block[] {
  if (options.length === 0) return [];
  return [{ kind: 'list', items: options.map((option) => optionSpans(option, currency)) }];
}

/** Ways of several parts: the first as a whole, of the others what is another part than there. */
function wayList([first, ...others]: readonly Shown[], currency: Currency): Block[] {
  if (!first) return [];
  const items = others.map((option) => {
    const placings = option.placings.filter(({ part }, index) => part !== first.placings[index]?.part);
    const warnings = option.warnings.filter((one) => !first.warnings.includes(one));
    return ['with ', ...optionSpans({ ...option, placings, warnings }, currency)];
  });
  return [{ kind: 'list', items: [optionSpans(first, currency), ...items] }];
}

function optionSpans(option: Shown, currency: Currency): Span[] {
  const { placings, cost, margin, bestAt, met, warnings } = option;
  const parts = placings.flatMap(({ part, from }, index): Span[] => [
    index > 0 ? ', ' : '',
    { strong: part.id },
    part.name ? ` ${echo(part.name)}` : '',
    from === undefined ? '' : ` from stage ${from + 1} on`,
  ]);
  const figures = [
    price(cost, currency),
    ...(margin === undefined ? [] : [`least margin ${Math.round(margin * 100)} %`]),
    ...(met.length > 0 ? [`meets ${met.join(', ')}`] : []),
    ...(bestAt.length > 0 ? [`best at ${bestAt.join(', ')}`] : []),
  ];
  const told = warnings.slice(0, MOST_WARNINGS).map((one) => ` Mind: ${echo(one, 160)}`);
  return [...parts, `: ${figures.join('; ')}.`, ...told];
}

function missedList(missed: readonly Missed[]): Block[] {
  if (missed.length === 0) return [];
  const shown = missed.slice(0, MOST_MISSED);
  const more = missed.length - shown.length;
  return [
    paragraph(`Not, the nearest first${more > 0 ? `, and ${more} more` : ''}:`),
    { kind: 'list', items: shown.map(missedSpans) },
  ];
}

function missedSpans({ part, reason, stages, ways }: Missed): Span[] {
  const where = stages.length > 0 ? ` (${stages.map((stage) => `"${echo(stage)}"`).join(', ')})` : '';
  const mend = ways.length > 0 ? [` It would do with this: ${(ways[0] ?? '').replace(/^Now: /, '')}.`] : [];
  return [{ strong: part.id }, where, ': ', ...prose(echo(reason, 260)), ...mend];
}

/** Parts for every open slot, the sum, and what else there is. */
export function togetherPage(together: Together, hoses: readonly Hose[], currency: Currency): Page {
  const { placings, without, cost, supply, choices, search } = together;
  if (choices.length === 0) return [paragraph('Every part of this sheet is chosen; name a slot to choose it anew.')];
  return [
    paragraph({ strong: 'Parts that do it together' }, `: ${price(cost, currency)} in all.`),
    ...(placings.length > 0 ? [{ kind: 'list', items: placings.map(placingSpans) } as const] : []),
    ...hoses.map((hose) => paragraph(hoseLine(hose, currency))),
    ...(without.length > 0
      ? [paragraph(`Nothing of the catalogs does it for: ${without.map(({ title }) => title).join(', ')}.`)]
      : []),
    ...(supply.length > 1
      ? [paragraph(`${searchText(supply.length, search)}:`), ...wayList(supply, currency)]
      : search.isWhole
        ? []
        : [paragraph(`${searchText(supply.length, search)}.`)]),
    ...choices.flatMap((choice) => [{ kind: 'divider' } as const, ...choicePage(choice, currency)]),
  ];
}

/** How the fuel supply was looked through. */
function searchText(ways: number, { combinations, tried, isWhole }: Search): string {
  const count = combinations.toLocaleString('en-US');
  const all = isWhole
    ? `of all ${count} combinations of its parts`
    : `of ${tried.toLocaleString('en-US')} combinations tried; there are ${count}, too many to try them all, so that it began with the best of each part alone and changed one part at a time`;
  return `The fuel supply, tried together, has ${ways} ${ways === 1 ? 'way' : 'ways'} that no other beats, ${all}`;
}

function placingSpans({ slot, part, from }: Placing): Span[] {
  const name = part.name ? ` ${echo(part.name)}` : '';
  return [`${slot.title}: `, { strong: part.id }, name, from === undefined ? '' : ` from stage ${from + 1} on`];
}

function hoseLine({ id, pieces, cost, left, runs }: Hose, currency: Currency): string {
  const rest = Math.round(left * 100) / 100;
  return `${id} for ${runs} ${runs === 1 ? 'run' : 'runs'}: ${pieces} to buy, ${price(cost, currency)}, ${rest} m left over.`;
}

/** What it costs to buy later what could be bought now. */
export function waitingPage({ parts, now, later }: WaitingCost, currency: Currency): Page {
  if (parts.length === 0) return [];
  return [
    paragraph(
      { strong: 'The cost of waiting' },
      `: ${price(now, currency)} now, ${price(later, currency)} with what is bought twice.`,
    ),
    { kind: 'list', items: parts.map((part) => waitingSpans(part, currency)) },
  ];
}

function waitingSpans({ slot, stage, present, now, again, later, more }: Waiting, currency: Currency): Span[] {
  const outgrown = [{ strong: slot.title }, `, outgrown in "${echo(stage)}": `];
  if (!again) return [...outgrown, 'nothing of the catalogs does it.'];
  const lasting = now
    ? [{ strong: now.id }, ` now is ${price(now.cost, currency)}`]
    : ['nothing of the catalogs lasts'];
  const twice = `${present ?? 'the present one'} now and ${again.id} then ${price(later, currency)}`;
  return [...outgrown, ...lasting, `; ${twice}${more === undefined ? '' : `, ${price(more, currency)} more`}.`];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
