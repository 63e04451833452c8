import type { StageAnalysis } from '../analysis/analysis.ts';
import { inductionOf } from '../analysis/induction.ts';
import type { House } from '../sheet/house.ts';
import { formatIn, formatValue } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import type { Situation } from './rule.ts';

/** What a rule sees of one stage of the plan. */
export function situationOf(stage: StageAnalysis, plan: readonly StageAnalysis[], house: House): Situation {
  const system = house.units ?? 'us';
  const showValue = (value: number, dimension: Dimension) => formatValue(value, dimension, system);
  return {
    values: stage.values,
    stage: stage.stage,
    name: stage.name,
    index: stage.index,
    ...inductionOf(stage.stage),
    figure: (id) => stage.figures.get(id),
    limit: (name) => stage.limit(name).value,
    show: (value) => {
      if (!value) return 'unknown';
      return 'unit' in value
        ? formatIn(value.value, value.dimension, value.unit)
        : showValue(value.value, value.dimension);
    },
    showValue,
    plan,
  };
}
