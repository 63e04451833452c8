import type { Figure, Term } from '../analysis/figure.ts';
import { capital } from '../analysis/figure-words.ts';
import { pathText } from '../sheet/entry.ts';
import { formatValue } from '../units/format.ts';
import type { System } from '../units/units.ts';

/** A value in the house's units and, where it differs, in the other system's. */
export function bothSystems({ value, dimension }: Term, system: System): string {
  const own = formatValue(value, dimension, system);
  const other = formatValue(value, dimension, system === 'us' ? 'si' : 'us');
  return own === other ? own : `${own} = ${other}`;
}

/** How a figure came about, as Markdown lines: formula, inputs with where they come from, source, notes. */
export function derivation(figure: Figure, system: System): string[] {
  return [
    `**${capital(figure.name)}** \`${figure.symbol} = ${figure.formula}\` = ${bothSystems(figure, system)}`,
    ...distinct(figure.inputs).map(
      (input) => `- \`${input.symbol}\` ${input.name}: ${termValue(input, system)}${origin(input)}`,
    ),
    `- source: ${figure.source}`,
    ...figure.notes.map((note) => `- note: ${note}`),
  ];
}

/** The inputs, each once. */
function distinct(inputs: readonly Term[]): Term[] {
  return inputs.filter(
    ({ symbol, name }, index) => inputs.findIndex((one) => one.symbol === symbol && one.name === name) === index,
  );
}

function termValue(term: Term, system: System): string {
  return term.text ?? bothSystems(term, system);
}

function origin({ field, assumed, figure }: Term): string {
  if (assumed) return ` (assumed: ${assumed})`;
  if (figure) return ' (computed)';
  return field ? ` (\`${pathText(field)}\`)` : '';
}
