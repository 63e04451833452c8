import type { Figure, Term } from '../analysis/figure.ts';
import { pathText } from '../sheet/entry.ts';
import { formatValue } from '../sheet/quantity.ts';
import type { System } from '../sheet/units.ts';

/** A figure's value, with its bounds where tolerances are given: `62.4 psi (60.1 psi to 65 psi)`. */
export function figureValue({ value, dimension, low, high }: Figure, system: System): string {
  const text = formatValue(value, dimension, system);
  if (low === undefined || high === undefined) return text;
  return `${text} (${formatValue(low, dimension, system)} to ${formatValue(high, dimension, system)})`;
}

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

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
