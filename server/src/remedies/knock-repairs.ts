import type { Repair, Settings, Situation } from '../checking/rule.ts';
import { cylinderAt, type FullLoad, sparkAt, withShot } from '../engineering/full-load.ts';
import { knockCurve, knockIndex, limitedSparkOn, usualBurn } from '../engineering/knock.ts';
import { findRoot } from '../engineering/roots.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import { fromStageOn } from './from-stage-on.ts';
import type { Knock } from './knock.ts';
import { percent } from './percent.ts';
import { roundedDown } from './size.ts';

/** Share of the limit a repair aims at, so that it does not land a hair inside. */
const AIM = 0.9;
/** Total timing, degrees, below which less timing costs more than it saves. Common practice, from memory. */
const LEAST_TIMING = 22;
/** Most retard for boost, degrees per Pa (2 deg/psi), and for nitrous, degrees, that makes sense. Common practice, from memory. */
const MOST_RETARD_PER_BOOST = 2 / 6894.757;
const MOST_NITROUS_RETARD = 12;
/** Boost and shot below which blower or bottle are not worth their trouble: 2 psi (Pa), 25 hp (W). Common practice. */
const LEAST_BOOST = 13.8e3;
const LEAST_SHOT = 18.6e3;
/** What an intercooler of the usual size gives back. Common practice. */
const USUAL_COOLER = 0.7;
/** Octane (AKI) that gasoline is sold with, at the pump and for the track. Common practice. */
const SOLD_OCTANE = [85, 87, 89, 91, 93, 96, 98, 100];
/** Lowest compression ratio worth building. Common practice. */
const LEAST_COMPRESSION = 7;
const E85_SHARE = 0.85;
/** Power of the octane number in the delay; see `ignitionDelay`. */
const OCTANE_POWER = 3.402;

/** Less timing, nitrous or boost, a cooler charge, better fuel, less compression: each to well inside the limit. */
export function knockRepairs(situation: Situation, knock: Knock): Repair[] {
  return [...lessTiming(situation, knock), ...partRepairs(situation, knock)].map((repair) =>
    shown(situation, knock, repair),
  );
}

/** The repairs of an engine of which only a late spark keeps knock away: all but less timing. */
export function lateSparkRepairs(situation: Situation, knock: Knock): Repair[] {
  return partRepairs(situation, knock).map((repair) => shown(situation, knock, repair));
}

function partRepairs(situation: Situation, knock: Knock): Repair[] {
  return [
    ...lessNitrous(situation, knock),
    ...lessBoost(situation, knock),
    ...intercooler(knock),
    ...moreOctane(situation, knock),
    ...alcohol(situation),
    ...lessCompression(situation, knock),
  ];
}

/** The repairs of a day hotter than usual: less timing, more octane. */
export function hotDayRepairs(situation: Situation, knock: Knock): Repair[] {
  const repairs = [...lessTiming(situation, knock), ...moreOctane(situation, knock)];
  return repairs.map((repair) => shown(situation, knock, repair));
}

/** The index before and after belongs in the title where it is that of the engine's own heads. */
function shown({ values }: Situation, { index }: Knock, repair: Repair): Repair {
  return values.engine?.['head-material'] ? { ...repair, shows: index } : repair;
}

/** Less timing by what takes it out in this stage: the retard for nitrous, that for boost, or the total. */
function lessTiming(situation: Situation, { of, spark, head, most }: Knock): Repair[] {
  const goal = limitedSparkOn(knockCurve(cylinderAt(of)), head, usualBurn, { most: AIM * most });
  const less = Math.ceil(spark - goal.spark);
  if (goal.limit !== 'at' || less <= 0) return [];
  if (of.nitrous) {
    const retard = Math.ceil(of.nitrous.retard) + less;
    if (retard > MOST_NITROUS_RETARD) return [];
    return [setting(`Take out ${retard} deg while nitrous flows`, { 'ignition.nitrous-retard': `${retard} deg` })];
  }
  const { boost } = of.charger;
  if (boost > 0) {
    const perBoost = of.retardPerBoost + less / boost;
    if (perBoost > MOST_RETARD_PER_BOOST) return [];
    const unit = situation.stage.boost?.unit === 'psi' ? 'deg/psi' : 'deg/bar';
    const text = roundedUpTo(perBoost, unit);
    return [setting(`Take out ${text} under boost`, { 'ignition.retard-per-boost': text })];
  }
  const total = `${Math.floor(of.advance) - less} deg`;
  if (of.advance - less < LEAST_TIMING) return [];
  return [fromStageOn(situation, `Hold total timing to ${total}`, { 'ignition.total-timing': total })];
}

function roundedUpTo(perBoost: number, unit: 'deg/psi' | 'deg/bar'): string {
  const [number] = formatIn(perBoost, 'angle-per-pressure', unit).split(' ');
  const fineness = unit === 'deg/psi' ? 10 : 1;
  return `${Math.ceil(Number(number) * fineness) / fineness} ${unit}`;
}

function lessNitrous({ stage }: Situation, knock: Knock): Repair[] {
  const { of } = knock;
  if (!of.nitrous || !stage.nitrous?.power) return [];
  const shot = reach(knock, LEAST_SHOT, of.nitrous.power, (power) => withShot(of, power));
  if (shot === undefined) return [];
  const text = roundedDown(shot, stage.nitrous.power);
  return [setting(`Hold the nitrous to ${text}`, { 'stages.nitrous.power': text })];
}

function lessBoost({ stage }: Situation, knock: Knock): Repair[] {
  const { of } = knock;
  if (!stage.boost || of.charger.boost <= LEAST_BOOST) return [];
  const boost = reach(knock, LEAST_BOOST, of.charger.boost, (boost) => ({ ...of, charger: { ...of.charger, boost } }));
  if (boost === undefined) return [];
  const text = roundedDown(boost, stage.boost);
  return [setting(`Limit the boost to ${text}`, { 'stages.boost': text })];
}

function intercooler({ of, head, most }: Knock): Repair[] {
  const { boost, effectiveness } = of.charger;
  if (boost <= 0 || effectiveness >= USUAL_COOLER) return [];
  const cooled = { ...of, charger: { ...of.charger, effectiveness: USUAL_COOLER } };
  if (knockIndex(cylinderAt(cooled), sparkAt(cooled), head) > most) return [];
  return [
    setting(`Fit an intercooler of ${percent(USUAL_COOLER)}`, {
      'stages.intercooler-effectiveness': percent(USUAL_COOLER),
    }),
  ];
}

function moreOctane({ values }: Situation, { of, spark, head, most }: Knock): Repair[] {
  const grade = values.fuel?.grade;
  if (grade !== 'gasoline' && grade !== 'gasoline-e10') return [];
  const index = knockIndex(cylinderAt(of), spark, head);
  const needed = of.octane * (index / (AIM * most)) ** (1 / OCTANE_POWER);
  const octane = SOLD_OCTANE.find((sold) => sold >= needed);
  if (octane === undefined) return [];
  const unit = values.fuel?.octane?.unit || 'AKI';
  const text = formatIn(octane, 'octane', unit);
  return [setting(`Run gasoline of ${text}`, { 'fuel.octane': text })];
}

function alcohol({ values }: Situation): Repair[] {
  const { fuel } = values;
  if (fuel?.grade === 'methanol' || fuel?.grade === 'ethanol') return [];
  if (fuel?.grade === 'e85' && !fuel['ethanol-share']) return [];
  const share = fuel?.['ethanol-share'] && { 'fuel.ethanol-share': percent(E85_SHARE) };
  return [
    {
      ...setting('Run E85, with injectors, pump and hoses to suit', { 'fuel.grade': 'e85', ...share }),
      ...(fuel?.octane !== undefined && { remove: ['fuel.octane'] }),
    },
  ];
}

function lessCompression({ values }: Situation, knock: Knock): Repair[] {
  const { of } = knock;
  const ratio = reach(knock, LEAST_COMPRESSION, of.compressionRatio, (compressionRatio) => ({
    ...of,
    compressionRatio,
  }));
  if (ratio === undefined) return [];
  const text = roundedDown(ratio, values.engine?.['compression-ratio'] as Quantity);
  return [
    setting(`Build the engine with a compression ratio of ${text}`, { 'engine.compression-ratio': Number(text) }),
  ];
}

/** The value between the least and the present one at which the index is where a repair aims; none where there is none. */
function reach({ head, most }: Knock, least: number, present: number, changed: (value: number) => FullLoad) {
  const excess = (value: number) => {
    const other = changed(value);
    return Math.log(knockIndex(cylinderAt(other), sparkAt(other), head) / (AIM * most));
  };
  if (present <= least || excess(least) >= 0 || excess(present) <= 0) return undefined;
  return findRoot(excess, least, present, (present - least) * 1e-3);
}

function setting(title: string, set: Settings): Repair {
  return { title, set };
}
