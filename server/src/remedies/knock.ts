import { alcohol } from '../analysis/fuel.ts';
import { fullLoad, isAlcoholFuel, knockIndex, knockLimitedSpark } from '../analysis/knock.ts';
import type { FigureNode, Node } from '../analysis/node.ts';
import { type Address, above, type Related, type Situation } from '../checking/rule.ts';
import { cylinderAt, type FullLoad, sparkAt } from '../engineering/full-load.ts';
import {
  aluminumAllowance,
  type HeadMaterial,
  knockIndex as indexOf,
  knockCurve,
  type LimitedSpark,
  limitedSparkOn,
  REFERENCE_SPARK,
  usualBurn,
} from '../engineering/knock.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import { fuelName } from './fuel-name.ts';

/** An engine over the knock limit at full load: the index it may have, by which heads, and the spark that keeps it. */
export type Knock = {
  readonly index: FigureNode;
  readonly of: FullLoad;
  readonly spark: number;
  readonly head: HeadMaterial;
  readonly most: number;
  readonly allowed: LimitedSpark;
  readonly miss: { excess: number; onlyAtBadEnd: boolean };
};

/**
 * Whether an index is over the limit, and what then holds. Where the heads are not known it is over it only when aluminum
 * would not stand it either; between the two the material of the heads is an open question.
 */
export function knockOf(situation: Situation, index: FigureNode, fullLoad: Node<FullLoad>): Knock | undefined {
  const { see, know, limit, values } = situation;
  if (!values.fuel?.grade) return undefined;
  const figure = see(index);
  const own = limit('knock-index');
  if (!above(figure, own)) return undefined;
  const stated = values.engine?.['head-material'];
  const most = stated ? own : own * aluminumAllowance();
  const miss = above(figure, most);
  const of = know(fullLoad);
  if (!miss || !of) return undefined;
  const head = stated ?? 'iron';
  const allowed = limitedSparkOn(knockCurve(cylinderAt(of)), head, usualBurn, { most });
  return { index, of, spark: sparkAt(of), head, most, allowed, miss };
}

/** Spark, degrees, below which an engine burns too late to be run hard: exhaust valves and pistons get the heat. Common practice, from memory. */
export const LEAST_USEFUL_SPARK = 15;
/** Spark, degrees, that a build should stand at least. Common practice, from memory. */
const USEFUL_SPARK = 18;

/**
 * An engine that keeps the limit only with a spark too late to be of use, as if it had a useful one; nothing where it is
 * over the limit as it is. By aluminum heads where theirs are not known.
 */
export function lateSparkOf(situation: Situation): Knock | undefined {
  const { know, limit, values } = situation;
  const of = know(fullLoad);
  if (!values.fuel?.grade || !of || knockOf(situation, knockIndex, fullLoad)) return undefined;
  const own = limit('knock-index');
  const iron = limitedSparkOn(knockCurve(cylinderAt(of)), 'iron', usualBurn, { most: own });
  if (iron.limit === 'free' || iron.spark >= LEAST_USEFUL_SPARK) return undefined;
  const stated = values.engine?.['head-material'];
  const most = stated ? own : own * aluminumAllowance();
  const head = stated ?? 'iron';
  const allowed = limitedSparkOn(knockCurve(cylinderAt(of)), head, usualBurn, { most });
  if (allowed.spark >= LEAST_USEFUL_SPARK) return undefined;
  const useful = {
    ...of,
    advance: USEFUL_SPARK,
    retardPerBoost: 0,
    nitrous: of.nitrous && { ...of.nitrous, retard: 0 },
  };
  const miss = { excess: LEAST_USEFUL_SPARK - allowed.spark, onlyAtBadEnd: false };
  return { index: knockLimitedSpark, of: useful, spark: sparkAt(useful), head, most, allowed, miss };
}

/** The field that brings an engine over the limit: nitrous or boost without which it would keep it, timing that is early, or compression. */
export function knockCause({ of, head, most }: Knock): Address {
  const keeps = (changed: Partial<FullLoad>) => {
    const other = { ...of, ...changed };
    return indexOf(cylinderAt(other), sparkAt(other), head) <= most;
  };
  if (of.nitrous && keeps({ nitrous: undefined })) return 'stages.nitrous.power';
  if (of.charger.boost > 0) return 'stages.boost';
  if (of.advance > REFERENCE_SPARK && keeps({ advance: REFERENCE_SPARK })) return 'ignition.total-timing';
  return 'engine.compression-ratio';
}

/** Octane as the sheet writes it: `95 RON`, or `91 octane` where it names no kind. */
function octaneInWords(octane: Quantity | undefined): string {
  if (!octane) return 'this fuel';
  return octane.unit ? formatIn(octane.value, 'octane', octane.unit) : `${formatIn(octane.value, 'octane', '')} octane`;
}

/** The engine in words: `11.8 to 1 with 8 psi of boost on 91 octane`. */
export function engineInWords({ values, stage, know, show, induction }: Situation): string {
  const parts = [`${Number(values.engine?.['compression-ratio']?.value.toFixed(1))} to 1`];
  if (induction !== 'natural' && stage.boost?.value) parts.push(`with ${show(stage.boost)} of boost`);
  if (stage.nitrous?.power) parts.push(`${parts.length > 1 ? 'and' : 'with'} ${show(stage.nitrous.power)} of nitrous`);
  const fuel = know(isAlcoholFuel) ? fuelName(values.fuel?.grade) : octaneInWords(values.fuel?.octane);
  return `${parts.join(' ')} on ${fuel}`;
}

/** What the limit allows and what the engine gets, after what is the matter with it. */
export function knockMessage(situation: Situation, { allowed, spark }: Knock): string {
  const { values } = situation;
  const whose = values.ignition?.['total-timing'] ? 'and the sheet gives it' : 'and full advance is usually';
  if (allowed.limit === 'never') return `${engineInWords(situation)} is over the knock estimate at any useful spark`;
  const most = Math.floor(allowed.spark);
  return `${engineInWords(situation)} stands about ${most} deg of spark at 3,000 rpm, ${whose} ${Math.max(Math.round(spark), most + 1)} deg`;
}

/** The other places that decide it. */
export function knockRelated({ values, stage, know, induction }: Situation, at: Address): Related[] {
  const fuel = values.fuel?.octane === undefined ? 'fuel' : 'fuel.octane';
  const places: Related[] = [
    { at: 'engine.compression-ratio', message: 'Together with this compression ratio.' },
    {
      at: fuel,
      message:
        know(alcohol) && know(isAlcoholFuel)
          ? 'On this fuel, outside what the estimate was made for.'
          : 'On this fuel.',
    },
  ];
  if (induction !== 'natural' && stage.boost) places.push({ at: 'stages.boost', message: 'With this boost.' });
  if (stage.nitrous?.power) places.push({ at: 'stages.nitrous.power', message: 'With this nitrous.' });
  if (values.ignition?.['total-timing']) places.push({ at: 'ignition.total-timing', message: 'With this timing.' });
  return places.filter((place) => place.at !== at);
}
