import type { StageAnalysis } from '../../analysis/analysis.ts';
import { type Compared, comparedIn } from '../../analysis/compared.ts';
import { type Explanation, explanationsOf } from '../../analysis/explanations.ts';
import { capital, withSpread } from '../../analysis/figure-words.ts';
import { type Block, type Page, paragraph, type Span } from '../../report/page.ts';
import type { LoggedField } from '../../sheet/log-values.ts';
import { echo } from '../../text/echo.ts';
import { formatIn, formatValue, type Units } from '../../units/format.ts';

/** Explanations of one reading that are listed. */
const MOST_LISTED = 8;

/** What was read on the finished car beside its figures, and what would explain what is apart. */
export function measuredPage(plan: readonly StageAnalysis[], units: Units): Page {
  const stages = plan.map((stage) => ({ stage, readings: comparedIn(stage) }));
  const rows = stages.flatMap(({ stage, readings }) => readings.map((one) => rowOf(one, stage, units)));
  if (rows.length === 0) return [];
  const apart = stages.flatMap(({ stage, readings }) =>
    readings.flatMap((one) => (one.isApart ? explanationBlocks(one, explanationsOf(stage, one, readings), units) : [])),
  );
  return [
    { kind: 'table', head: ['reading', 'day', 'stage', 'read', 'may be', 'computed', 'the two'], rows },
    paragraph(
      'Of what was read more than once in a stage the last day counts. Where a reading has no tolerance of its own, that of the usual instrument is taken, common practice.',
    ),
    ...apart,
  ];
}

function rowOf(one: Compared, { name }: StageAnalysis, units: Units): string[] {
  const { about, reading, read, low, high, computed, isApart } = one;
  const lines = reading.logged?.lines[about.field as LoggedField];
  const inUnit = (value: number) => formatIn(value, read.dimension, read.unit);
  return [
    capital(about.name),
    echo(String(reading.date)),
    echo(name),
    read.text + (lines ? ` (${lines} of the log)` : ''),
    `${inUnit(low)} to ${inUnit(high)}`,
    computed
      ? withSpread(computed, (value, dimension, spread) => formatValue(value, dimension, units, spread))
      : 'not known',
    computed ? (isApart ? 'disagree' : 'agree') : 'cannot be compared',
  ];
}

function explanationBlocks({ about }: Compared, explanations: readonly Explanation[], units: Units): Block[] {
  const lead = `${capital(about.name)} is explained by one of these, with all else as it is:`;
  if (explanations.length === 0)
    return [paragraph(`${capital(about.name)} is explained by no single value that the figure stands on.`)];
  const items = explanations
    .slice(0, MOST_LISTED)
    .map(({ name, value, present, dimension, assumed, through, also }): Span[] => [
      { strong: name },
      ` ${formatValue(value, dimension, units)} in place of ${formatValue(present, dimension, units)}`,
      ...(assumed ? [`, which is only assumed: ${assumed}`] : []),
      ...(through ? [`, by way of the ${through}`] : []),
      ...(also.length ? [`; it also explains the ${also.join(' and the ')}`] : []),
    ]);
  return [paragraph(lead), { kind: 'list', items }];
}
