import type { Figure, Term } from '../analysis/figure.ts';
import { capital } from '../analysis/figure-words.ts';
import { pathText } from '../sheet/entry.ts';
import { formatGiven, formatValue, systemOf, type Units } from '../units/format.ts';
import { type Block, paragraph, type Span } from './page.ts';

/** A value in the units of the sheet and, where it differs, in the other system's; what is given keeps the digits it has. */
export function bothSystems({ value, dimension, figure }: Term, units: Units): string {
  const own = (figure ? formatValue : formatGiven)(value, dimension, units);
  const other = formatValue(value, dimension, systemOf(units) === 'us' ? 'si' : 'us');
  return own === other ? own : `${own} = ${other}`;
}

/** How a figure came about: formula, inputs with where they come from, source, notes. */
export function derivation(figure: Figure, units: Units): Block[] {
  const head: Span[] = [
    { strong: capital(figure.name) },
    ' ',
    { code: `${figure.symbol} = ${figure.formula}` },
    ` = ${bothSystems(figure, units)}`,
  ];
  const inputs = distinct(figure.inputs).map((input): Span[] => [
    { code: input.symbol },
    ` ${input.name}: ${input.text ?? bothSystems(input, units)}`,
    ...origin(input),
  ]);
  const notes = figure.notes.map((note) => [`note: ${note}`]);
  return [paragraph(...head), { kind: 'list', items: [...inputs, [`source: ${figure.source}`], ...notes] }];
}

/** The inputs, each once. */
function distinct(inputs: readonly Term[]): Term[] {
  return inputs.filter(
    ({ symbol, name }, index) => inputs.findIndex((one) => one.symbol === symbol && one.name === name) === index,
  );
}

function origin({ field, assumed, figure }: Term): Span[] {
  if (assumed) return [` (assumed: ${assumed})`];
  if (figure) return [' (computed)'];
  return field ? [' (', { code: pathText(field) }, ')'] : [];
}
