import { capital } from '../analysis/figure-words.ts';
import { echo } from '../text/echo.ts';
import { formatValue } from '../units/format.ts';
import { comparisonPage, type NamedComparison, verdict } from './comparison-page.ts';
import type { FigureCell } from './model.ts';
import { type Block, type Page, paragraph, prose, type Span } from './page.ts';

/** What is set otherwise, and what that does. */
export type Variant = { settings: readonly { field: string; value: string }[]; comparison: NamedComparison };

/** What a sheet comes to with other values: one try in full; of several what each comes to, and their figures side by side. */
export function whatIfPage(variants: readonly Variant[]): Page {
  const [only, ...others] = variants;
  if (!only) return [];
  if (others.length === 0)
    return [paragraph('What if ', ...settingSpans(only), '?'), ...comparisonPage(only.comparison, 'list')];
  return [...variants.flatMap(variantBlocks), ...figuresBeside(variants)];
}

function settingSpans({ settings }: Variant): Span[] {
  return settings.flatMap(({ field, value }, index): Span[] => [
    ...(index > 0 ? [', '] : []),
    { code: echo(field) },
    value.trim() === '' ? ' were not given' : ` were ${echo(value)}`,
  ]);
}

function variantBlocks(variant: Variant, index: number): Block[] {
  const { comparison } = variant;
  const findings = [
    ...comparison.new.map(({ severity, message }): Span[] => [`new ${severity}: `, ...prose(message)]),
    ...comparison.worse.map(({ severity, message }): Span[] => [`worse ${severity}: `, ...prose(message)]),
    ...comparison.better.map(({ severity, message }): Span[] => [`better ${severity}: `, ...prose(message)]),
    ...comparison.gone.map(({ severity, message }): Span[] => [`gone ${severity}: `, ...prose(message)]),
  ];
  return [
    paragraph({ strong: `${index + 1}.` }, ' What if ', ...settingSpans(variant), '?'),
    paragraph(verdict(comparison)),
    ...(findings.length > 0 ? [{ kind: 'list', items: findings } as const] : []),
  ];
}

/** Each figure that some try moves, in each stage: now, and with each. */
function figuresBeside(variants: readonly Variant[]): Block[] {
  const keys = new Map<string, { name: string; stage: string }>();
  for (const { comparison } of variants)
    for (const { figure, stage, name } of comparison.figures) keys.set(`${figure} in ${stage}`, { name, stage });
  const items = [...keys].map(([key, { name, stage }]): Span[] => {
    const found = variants.map(({ comparison }) => ({
      figure: comparison.figures.find((one) => `${one.figure} in ${one.stage}` === key),
      units: comparison.units,
    }));
    const first = found.find(({ figure }) => figure);
    const text = (cell: FigureCell | undefined) =>
      cell && first?.figure ? formatValue(cell.value, first.figure.dimension, first.units) : '-';
    const each = found.map(({ figure }, index) => `${index + 1}: ${figure ? text(figure.after) : 'as now'}`);
    return [`${capital(name)}, ${echo(stage)}: now ${text(first?.figure?.before)}; ${each.join('; ')}`];
  });
  return items.length > 0 ? [paragraph({ strong: 'Figures' }), { kind: 'list', items }] : [];
}
