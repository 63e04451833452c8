import type { StageAnalysis } from '../analysis/analysis.ts';
import { comparedIn } from '../analysis/compared.ts';
import { explanationsOf } from '../analysis/explanations.ts';
import { isKnown, type Outcome } from '../analysis/figure.ts';
import { inductionOf } from '../analysis/induction.ts';
import { limit, type Node } from '../analysis/node.ts';
import { absentIn } from '../analysis/worksheet.ts';
import { type House, unitsIn } from '../sheet/house.ts';
import { against } from '../units/digits.ts';
import { formatIn, formatValue, unitFor } from '../units/format.ts';
import { inUnits } from '../units/sentence.ts';
import type { Situation } from './rule.ts';
import { type Look, type Watch, watched } from './watch.ts';

/** The stages of a plan as rules see them; `watching` is told all they look at. */
export function situationsOf(
  stages: readonly StageAnalysis[],
  house: House,
  watching: { current: Watch },
): readonly Situation[] {
  const plan: Situation[] = [];
  for (const stage of stages) plan.push(situationOf(stage, plan, house, watching));
  return plan;
}

function situationOf(
  analysis: StageAnalysis,
  plan: readonly Situation[],
  house: House,
  watching: { current: Watch },
): Situation {
  const { index, name, sheet } = analysis;
  const told = (look: Look) => watching.current.field(look);
  const values = watched(sheet.values, '', analysis, told);
  const stage = watched(sheet.stage, 'stages', analysis, told);
  const ofOneStage = <T>(value: T): T => {
    watching.current.isOfOneStage = true;
    return value;
  };
  return {
    values,
    stage,
    get name() {
      return ofOneStage(name);
    },
    get index() {
      return ofOneStage(index);
    },
    get plan() {
      return ofOneStage(plan);
    },
    get natural() {
      return ofOneStage(sheet.natural?.index);
    },
    get induction() {
      return inductionOf(stage).induction;
    },
    get path() {
      return inductionOf(stage).path;
    },
    ...showingIn(house),
    ...askingOf(analysis, house, watching),
    get readings() {
      return ofOneStage(values.measured) ? readingsOf(analysis, watching.current) : [];
    },
    explain: (reading) => explanationsOf(analysis, reading, comparedIn(analysis)),
  };
}

/** The readings of a stage beside their figures, each of them told. */
function readingsOf(analysis: StageAnalysis, watch: Watch) {
  const readings = comparedIn(analysis);
  for (const { about } of readings) watch.node(analysis, about.figure);
  return readings;
}

/** What a rule asks of a stage; all of it is told. */
function askingOf(
  analysis: StageAnalysis,
  house: House,
  watching: { current: Watch },
): Pick<Situation, 'know' | 'see' | 'impossible' | 'limit' | 'placeOf'> {
  const { index, sheet } = analysis;
  const { showValue } = showingIn(house);
  const outcomeOf = <T>(node: Node<T>) => watching.current.node(analysis, node).outcome as Outcome<T>;
  const know = <T>(node: Node<T>): T | undefined => {
    const outcome = outcomeOf(node);
    return isKnown(outcome) ? outcome.value : undefined;
  };
  return {
    know,
    see: (figure) => {
      outcomeOf(figure);
      return analysis.estimate(figure);
    },
    impossible: (figure) => {
      const reason = absentIn(outcomeOf(figure))?.impossible;
      if (!reason) return undefined;
      watching.current.reason(reason);
      return inUnits(reason, showValue);
    },
    limit: (limitName) => know(limit(limitName)) as number,
    placeOf: (field) => {
      const place = sheet.placeOf(field);
      watching.current.place(index, field, place);
      return place;
    },
  };
}

/** Values as text in the units of the sheet, and quantities of the sheet in their own. */
function showingIn(house: House): Pick<Situation, 'show' | 'showValue' | 'compare'> {
  const units = unitsIn(house);
  return {
    showValue: (value, dimension, spread) => formatValue(value, dimension, units, spread),
    show: (value) => {
      if (!value) return 'unknown';
      return 'unit' in value
        ? formatIn(value.value, value.dimension, value.unit)
        : formatValue(value.value, value.dimension, units);
    },
    compare: (value, limit) => {
      const name = 'unit' in value ? value.unit : unitFor(value.value, value.dimension, units);
      const ends =
        value.low === undefined || value.high === undefined || value.low === value.high ? [] : [value.low, value.high];
      const [nominal, ...others] = [value.value, ...ends].map((one) => against(one, limit, value.dimension, name));
      const [low, high] = others;
      return {
        value: `${nominal?.value}${low && high ? ` (${low.value} to ${high.value})` : ''}`,
        limit: longest([nominal, ...others].map((one) => one?.limit ?? '')),
      };
    },
  };
}

function longest(texts: readonly string[]): string {
  return texts.reduce((one, other) => (other.length > one.length ? other : one), '');
}
