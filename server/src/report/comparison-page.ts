import { capital } from '../analysis/figure-words.ts';
import type { Severity } from '../checking/rule.ts';
import { pathText } from '../sheet/entry.ts';
import { placeName, writtenValue } from '../sheet/place-name.ts';
import { echo } from '../text/echo.ts';
import { against } from '../units/digits.ts';
import { formatGiven, formatValue, type Units, unitFor } from '../units/format.ts';
import type { ChangedPart } from './changed-parts.ts';
import type { ComparedFigure, ComparedFinding, Comparison } from './comparison.ts';
import { type Block, type Page, paragraph, prose, type Span } from './page.ts';
import { differencesOf, type PutBack } from './put-back-trials.ts';

/** A comparison of two sheets with what is needed to name its places: the values of both, and the units to show. */
export type NamedComparison = Comparison & { values: unknown; valuesBefore: unknown; units: Units };

/** Most figures a cause names before it counts the rest. */
const MOST_NAMED = 4;

const severities: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** What a change comes to. */
export type Outcome = 'same' | 'no effect' | 'changed' | 'better' | 'less certain' | 'mixed' | 'worse';

/** What a change comes to, by what is found; a check that cannot be made any more is nothing better. */
export function outcomeOf(comparison: Comparison): Outcome {
  const { new: come, worse, better, gone, unchecked, figures } = comparison;
  const isWorse = come.length + worse.length > 0;
  const isBetter = better.length + gone.filter(({ accepted }) => accepted === undefined).length > 0;
  if (isWorse) return isBetter ? 'mixed' : 'worse';
  if (unchecked.length > 0) return 'less certain';
  if (isBetter) return 'better';
  if (gone.length + figures.length > 0) return 'changed';
  return comparison.isSameText && comparison.withoutEffect.length === 0 ? 'same' : 'no effect';
}

/** What a change does, in one sentence. */
export function verdict(comparison: Comparison): string {
  const { new: come, worse, better, gone, unchecked, figures, isBroken } = comparison;
  const broken = isBroken ? 'Part of the new text cannot be read, and is not compared. ' : '';
  const parts = [
    ...counts(come, 'new'),
    ...counts(worse, 'worse'),
    ...counts(better, 'better'),
    ...counts(gone, 'gone'),
    ...(unchecked.length > 0 ? [`${many(unchecked.length, 'check')} cannot be made any more`] : []),
    ...(figures.length > 0 ? [figureCount(figures)] : []),
  ];
  if (parts.length === 0) return `${broken}${withoutEffect(comparison)}`;
  return `${broken}${capital(outcomeOf(comparison))}: ${parts.join(', ')}.`;
}

function withoutEffect({ withoutEffect: idle, isSameText }: Comparison): string {
  const count = idle.flatMap((part) => differencesOf(part)).length;
  if (count > 0)
    return `No effect: ${many(count, 'field')} ${count === 1 ? 'is' : 'are'} written otherwise, nothing found or computed changes.`;
  return isSameText ? 'No difference.' : 'No effect: only comments, spaces or the order of fields differ.';
}

function counts(findings: readonly ComparedFinding[], word: string): string[] {
  return severities.flatMap((severity) => {
    const count = findings.filter((one) => one.severity === severity).length;
    if (count === 0) return [];
    return [
      severity === 'information'
        ? `${count} ${word} (information)`
        : `${count} ${word} ${severity}${count > 1 ? 's' : ''}`,
    ];
  });
}

function figureCount(figures: readonly ComparedFigure[]): string {
  const beyond = figures.filter(({ crossed }) => crossed === 'beyond').length;
  const within = figures.filter(({ crossed }) => crossed === 'within').length;
  const crossing = [
    ...(beyond ? [`${beyond} beyond ${beyond === 1 ? 'its' : 'their'} limit now`] : []),
    ...(within ? [`${within} back within`] : []),
  ];
  return `${many(figures.length, 'figure')} ${figures.length === 1 ? 'changes' : 'change'}${crossing.length ? ` (${crossing.join(', ')})` : ''}`;
}

function many(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** What a change does: verdict, findings, figures, what did it, and how much is as it was. */
export function comparisonPage(comparison: NamedComparison, as: 'table' | 'list' = 'table'): Page {
  const { figures, same, unchecked } = comparison;
  return [
    paragraph({ strong: verdict(comparison) }),
    ...findingBlocks('New', comparison.new),
    ...findingBlocks('Worse', comparison.worse),
    ...findingBlocks('Better', comparison.better),
    ...findingBlocks('Gone', comparison.gone),
    ...list(
      'Cannot be checked any more',
      unchecked.map(({ rule, title, lacks, stage, found }) => [
        `${title}, in ${echo(stage)}`,
        ...(lacks.length > 0 ? [`: lacks ${lacks.join(', ')}.`] : ['.']),
        ...(found === undefined ? [] : [' Before: ', ...prose(found)]),
        ' ',
        { code: rule },
      ]),
    ),
    ...figureBlocks(figures, comparison.units, as),
    ...causeBlocks(comparison),
    ...list(
      'Without an effect',
      comparison.withoutEffect.flatMap((part) => changeSpans(part, comparison)),
    ),
    ...(comparison.isCut ? [paragraph('There was no time to put every change back by itself.')] : []),
    paragraph(`As before: ${many(same.findings, 'finding')}, ${many(same.figures, 'figure')}.`),
  ];
}

function list(heading: string, items: readonly (readonly Span[])[]): Block[] {
  return items.length > 0 ? [paragraph({ strong: heading }), { kind: 'list', items }] : [];
}

function findingBlocks(heading: string, findings: readonly ComparedFinding[]): Block[] {
  const items = findings.map(({ severity, message, rule, before, accepted }): Span[] => [
    { strong: before && before.severity !== severity ? `${before.severity} -> ${severity}` : severity },
    ' ',
    ...prose(message),
    ...(before && before.message !== message ? [' Before: ', ...prose(before.message)] : []),
    ...(accepted === undefined ? [] : [` Accepted now: ${echo(accepted, 300)}`]),
    ' ',
    { code: rule },
  ]);
  return list(heading, items);
}

/** The figures, one line where every stage says the same; as a table, or as a list where columns have no room. */
function figureBlocks(figures: readonly ComparedFigure[], units: Units, as: 'table' | 'list'): Block[] {
  if (figures.length === 0) return [];
  const rows = new Map<string, { stages: string[]; cells: string[]; name: string }>();
  for (const figure of figures) {
    const cells = [cellText(figure, 'before', units), cellText(figure, 'after', units), limitText(figure, units)];
    const key = JSON.stringify([figure.figure, cells]);
    const row = rows.get(key) ?? { stages: [], cells, name: capital(figure.name) };
    row.stages.push(echo(figure.stage));
    rows.set(key, row);
  }
  const lines = [...rows.values()].map(({ name, stages, cells }) => [name, stages.join(', '), ...cells]);
  const head = ['figure', 'stage', 'before', 'now', 'limit'];
  const table: Block = { kind: 'table', head, rows: lines };
  const items = lines.map(([name, stages, before, now, limit]) => [
    `${name}, ${stages}: ${before} -> ${now}${limit ? ` (${limit})` : ''}`,
  ]);
  return [paragraph({ strong: 'Figures' }), as === 'table' ? table : { kind: 'list', items }];
}

/** A figure with as many digits as tell on which side of a crossed limit it is. */
function cellText({ dimension, crossed, ...figure }: ComparedFigure, side: 'before' | 'after', units: Units): string {
  const cell = figure[side];
  if (!cell) return '-';
  const spread = (cell.high ?? 0) - (cell.low ?? 0);
  const text = (value: number) => {
    const short = formatValue(value, dimension, units, spread);
    const limit = crossed ? cell.limit?.value : undefined;
    if (limit === undefined || short !== formatValue(limit, dimension, units)) return short;
    return against(value, limit, dimension, unitFor(limit, dimension, units)).value;
  };
  if (cell.low === undefined || cell.high === undefined) return text(cell.value);
  return `${text(cell.value)} (${text(cell.low)} to ${text(cell.high)})`;
}

function limitText({ after, before, crossed, dimension }: ComparedFigure, units: Units): string {
  const limit = (after ?? before)?.limit;
  if (!limit) return '';
  const text = `${limit.side} ${formatGiven(limit.value, dimension, units)}`;
  if (!crossed) return text;
  return `${text}: ${crossed === 'beyond' ? 'missed now' : 'kept now'}`;
}

function causeBlocks(comparison: NamedComparison): Block[] {
  const { causes } = comparison;
  const of = (findings: readonly ComparedFinding[], word: string, kind: readonly ComparedFinding[]) => {
    const rules = [...new Set(findings.filter((one) => kind.includes(one)).map(({ rule }) => rule))];
    return rules.length > 0 ? [`${word} ${rules.join(', ')}`] : [];
  };
  const items = causes.map(({ changes, findings, figures }): Span[] => {
    const names = [...new Set(figures.map(({ figure }) => nameOf(figure, comparison.figures)))];
    const more = names.length - MOST_NAMED;
    const moved = names.slice(0, MOST_NAMED).join(', ') + (more > 0 ? ` and ${more} more` : '');
    const effects = [
      ...of(findings, 'brings', comparison.new),
      ...of(findings, 'worsens', comparison.worse),
      ...of(findings, 'betters', comparison.better),
      ...of(findings, 'ends', comparison.gone),
      ...(names.length > 0 ? [`moves ${moved}`] : []),
    ];
    return [
      ...(changes.length > 1 ? ['only together: '] : []),
      ...changes.flatMap((part, index) => [...(index > 0 ? [' + '] : []), ...joined(changeSpans(part, comparison))]),
      `: ${effects.join('; ')}`,
    ];
  });
  return list('What did it', items);
}

function nameOf(figure: string, figures: readonly ComparedFigure[]): string {
  return figures.find((one) => one.figure === figure)?.name ?? figure;
}

function joined(spans: readonly (readonly Span[])[]): Span[] {
  return spans.flatMap((one, index) => [...(index > 0 ? [', '] : []), ...one]);
}

/** What a part of a change was and is, one line for each field. */
function changeSpans(part: PutBack, { values, valuesBefore }: NamedComparison): Span[][] {
  if ('house' in part) return [['the house rules']];
  if ('catalog' in part) return partSpans(part.catalog);
  return part.fields.map(({ kind, place, was, before, after }): Span[] => {
    const name = before === undefined || kind !== 'item' ? placeName(place, values) : placeName(was, valuesBefore);
    if (kind === 'order') return [`order of ${name}`];
    if (kind === 'item') return [`${name} ${before === undefined ? 'added' : 'taken out'}`];
    return [{ code: name }, ` ${echo(writtenValue(before))} -> ${echo(writtenValue(after))}`];
  });
}

/** What a catalog said of a part or kit and says of it now. */
function partSpans({ list, id, fields }: ChangedPart): Span[][] {
  const head: Span[] = [`${list} `, { code: id }, ' of the catalog'];
  return fields.map(({ place, before, after }): Span[] => {
    if (place.length === 0) return [...head, before === undefined ? ' added' : ' taken out'];
    return [...head, ': ', { code: pathText(place) }, ` ${echo(writtenValue(before))} -> ${echo(writtenValue(after))}`];
  });
}
