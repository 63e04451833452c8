import type { Figure, Term } from '../analysis/figure.ts';
import { capital } from '../analysis/figure-words.ts';
import { pathText } from '../sheet/entry.ts';
import { formatValue } from '../units/format.ts';
import type { System } from '../units/units.ts';
import { type Block, paragraph, type Span } from './page.ts';

/** A value in the house's units and, where it differs, in the other system's. */
export function bothSystems({ value, dimension }: Term, system: System): string {
  const own = formatValue(value, dimension, system);
  const other = formatValue(value, dimension, system === 'us' ? 'si' : 'us');
  return own === other ? own : `${own} = ${other}`;
}

/** How a figure came about: formula, inputs with where they come from, source, notes. */
export function derivation(figure: Figure, system: System): Block[] {
  const head: Span[] = [
    { strong: capital(figure.name) },
    ' ',
    { code: `${figure.symbol} = ${figure.formula}` },
    ` = ${bothSystems(figure, system)}`,
  ];
  const inputs = distinct(figure.inputs).map((input): Span[] => [
    { code: input.symbol },
    ` ${input.name}: ${input.text ?? bothSystems(input, system)}`,
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
