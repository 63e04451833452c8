import { pathText } from '../sheet/entry.ts';
import { placeName, writtenValue } from '../sheet/place-name.ts';
import type { NamedComparison } from './comparison-page.ts';
import type { PutBack } from './put-back-trials.ts';

/** A comparison as plain data, its places as texts; figures in SI. */
export function comparisonData(comparison: NamedComparison) {
  const { causes, withoutEffect, unchecked, figures, same, isBroken } = comparison;
  const finding = ({ ids, ...rest }: NamedComparison['new'][number]) => ({ ids, ...rest });
  return {
    isBroken,
    findings: {
      new: comparison.new.map(finding),
      worse: comparison.worse.map(finding),
      better: comparison.better.map(finding),
      gone: comparison.gone.map(finding),
      unchecked,
    },
    figures,
    causes: causes.map(({ changes, findings, figures: moved }) => ({
      changes: changes.flatMap((part) => changeData(part, comparison)),
      findings: findings.flatMap(({ ids }) => ids),
      figures: moved.map(({ figure, stage }) => ({ figure, stage })),
    })),
    withoutEffect: withoutEffect.flatMap((part) => changeData(part, comparison)),
    same,
  };
}

function changeData(part: PutBack, { values, valuesBefore }: NamedComparison) {
  if ('house' in part) return [{ kind: 'house', name: 'the house rules' }];
  if ('catalog' in part) {
    const { list, id, fields } = part.catalog;
    return fields.map(({ place, before, after }) => ({
      kind: list,
      name: id,
      ...(place.length > 0 && { field: pathText(place), ...writtenSides(before, after) }),
      ...(place.length === 0 && { isTakenOut: after === undefined }),
    }));
  }
  return part.fields.map(({ kind, place, was, before, after }) => ({
    kind,
    name: kind === 'item' && after === undefined ? placeName(was, valuesBefore) : placeName(place, values),
    field: pathText(place),
    ...(kind !== 'order' && writtenSides(before, after)),
  }));
}

function writtenSides(before: unknown, after: unknown): { before?: string; after?: string } {
  return {
    ...(before !== undefined && { before: writtenValue(before) }),
    ...(after !== undefined && { after: writtenValue(after) }),
  };
}
