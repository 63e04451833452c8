import { boostedPowerEstimate, densityRatio } from '../analysis/boost.ts';
import { pumpCircuit } from '../analysis/circuits.ts';
import { requiredDeliveryColdest, requiredStaticFlowColdest } from '../analysis/coldest-day.ts';
import { isKnown } from '../analysis/figure.ts';
import { RATED_VOLTAGE } from '../analysis/fuel-network.ts';
import { injectorPressure, requiredStaticFlow } from '../analysis/full-load-injection.ts';
import { inductionPath } from '../analysis/induction.ts';
import { limit } from '../analysis/node.ts';
import { requiredDelivery, requiredPressure } from '../analysis/supply.ts';
import { depression, depressionColdest } from '../analysis/throttle.ts';
import { REDLINE_RATIO, usualPeakPowerSpeed } from '../engineering/bmep.ts';
import { bladeFuses } from '../engineering/fuses.ts';
import { currentFromPower } from '../engineering/pump.ts';
import { hoseBores, injectorFlows, sizeAtLeast } from '../engineering/series.ts';
import { awgArea, stockedGauges } from '../engineering/wire.ts';
import { usualIdle } from '../remedies/idle-speed.ts';
import type { NewValue } from '../sheet/edit.ts';
import { type FieldPath, inStage, stepsOf } from '../sheet/path.ts';
import { isQuantityValue } from '../units/quantity.ts';
import { type Assumed, assuming, type Build, given, highest } from './build.ts';
import { written } from './written.ts';

/** A step that assumes what it can of a build in which the steps before it have been taken. */
type Step = (build: Build) => readonly Assumed[];

/** Duty that injectors are chosen for, the middle of 60 to 75 %. Common practice. */
const CHOSEN_DUTY = 0.7;
/** Delivery of the pump that is assumed, over what it must deliver: the middle of 10 to 30 %. Common practice. */
const CHOSEN_DELIVERY = 1.2;
/** Pressures and deliveries at which that pump is taken to be tested, over its point of work: a falling curve. */
const CURVE = [
  [0.7, 1.15],
  [1, 1],
  [1.3, 0.85],
] as const;
/** Bores of throttle bodies that are tried, mm. */
const BORES = Array.from({ length: 41 }, (_, index) => 30 + index);

/** The steps in the order in which one needs the other: what is common, then sizes that follow from it. */
export const steps: readonly Step[] = [
  one(
    'fuel.grade',
    ({ house }) => (house.fuel ? undefined : 'gasoline-e10'),
    'most pump gasoline carries alcohol; common practice',
  ),
  boosts,
  one(
    'engine.compression-ratio',
    ({ plan }) => (plan.some(isBlown) ? 8.5 : 9),
    '9, or 8.5 with a blower planned; common practice',
  ),
  one('engine.peak-power-speed', peakPowerSpeed, '140 psi of mean effective pressure at peak power, 6,500 rpm at most'),
  one('engine.redline', redline, '10 % over the peak-power speed; common practice'),
  one('engine.idle', idle, 'usual for the cam; common practice'),
  boostedPowers,
  one('throttle-body.injectors.quantity', injectorQuantity, 'one a bore; common practice'),
  one('throttle-body.bores.quantity', boresFor, 'four bores from six cylinders on; common practice'),
  one(
    'throttle-body.injectors.rated-pressure',
    () => '43.5 psi',
    '3 bar, the pressure most injectors are rated at; common practice',
  ),
  one(
    'fuel-system.regulator.pressure',
    (build) => textOf(given(build, 'throttle-body.injectors.rated-pressure')),
    "the injectors' rated pressure",
  ),
  one(
    'fuel-system.regulator.reference',
    ({ plan }) => (plan.some(isBlownThrough) ? 'manifold' : undefined),
    'the rail must rise with the boost that is planned',
  ),
  one('throttle-body.injectors.dead-time', () => '1 ms', 'at 14 V; common practice'),
  one('throttle-body.injectors.shortest-pulse', () => '1.4 ms', 'common practice'),
  one(
    'throttle-body.injectors.static-flow',
    staticFlow,
    'the size that runs at about 70 % duty in the hungriest stage, and does for the coldest, lowest day',
  ),
  one(
    'throttle-body.bores.diameter',
    boreDiameter,
    'the smallest that holds back less than the limit in every stage and on every day',
  ),
  one('fuel-system.pump.placement', () => 'in-tank', 'the tank cools it and keeps it full; common practice'),
  one('fuel-system.pre-filter.rating', () => '100 um', 'common practice'),
  one('fuel-system.filter.rating', () => '10 um', 'common practice'),
  one('fuel-system.feed.length', () => '5 m', 'from the tank at the rear to the engine'),
  one('fuel-system.feed.inside-diameter', bore, 'the smallest hose within the velocity limit at the delivery needed'),
  one('fuel-system.return.length', (build) => textOf(given(build, 'fuel-system.feed.length')), 'as long as the feed'),
  one(
    'fuel-system.return.inside-diameter',
    (build) => textOf(given(build, 'fuel-system.feed.inside-diameter')),
    'as wide as the feed; common practice',
  ),
  one('fuel-system.pump.flow-at', pumpCurve, 'a pump with 20 % over the delivery needed on every day'),
  one('fuel-system.pump.current', pumpCurrent, 'by its flow and pressure at the usual efficiency'),
  one('electrical.pump-circuit.length', () => '5 m', 'from the battery to the tank, one way; common practice'),
  one('electrical.pump-circuit.wire', pumpWire, 'the thinnest stocked wire within the limit'),
  one('electrical.pump-circuit.fuse', pumpFuse, 'the smallest that carries the pump'),
];

function one(field: FieldPath, valueFor: (build: Build) => NewValue | undefined, because: string): Step {
  return (build) => {
    if (given(build, field) !== undefined) return [];
    const value = valueFor(build);
    return value === undefined ? [] : [{ place: stepsOf(field), value, because }];
  };
}

/** Boost of a mild street build. Common practice, from memory. */
const usualBoost = { roots: '6 psi', centrifugal: '6 psi', turbo: '7 psi' } as const;

function boosts({ plan }: Build): Assumed[] {
  return plan.flatMap(({ sheet: { stage, index } }) => {
    const { induction } = stage;
    if (!induction || induction === 'natural' || stage.boost) return [];
    const because = `usual for a mild ${induction} build; common practice, from memory`;
    return [{ place: inStage(index, 'stages.boost'), value: usualBoost[induction], because }];
  });
}

function boostedPowers({ plan }: Build): Assumed[] {
  return plan.flatMap((stage) => {
    const estimate = stage.sheet.stage.power ? undefined : stage.estimate(boostedPowerEstimate);
    if (!estimate) return [];
    const value = written(estimate.value, 'power', 'hp', 5);
    return [{ place: inStage(stage.index, 'stages.power'), value, because: 'the power to expect from its charge' }];
  });
}

function isBlown({ sheet }: Build['plan'][number]): boolean {
  return sheet.stage.induction !== undefined && sheet.stage.induction !== 'natural';
}

function isBlownThrough(stage: Build['plan'][number]): boolean {
  return isBlown(stage) && stage.know(inductionPath) === 'blow-through';
}

function peakPowerSpeed({ plan, values }: Build): string | undefined {
  const displacement = values.engine?.displacement?.value;
  const claimed = plan.find(({ sheet }) => sheet.stage.power && !isBlown(plan[sheet.index] as Build['plan'][number]));
  const stage = claimed ?? plan.find(({ sheet }) => sheet.stage.power);
  const power = stage?.sheet.stage.power?.value;
  if (!stage || !power || !displacement) return undefined;
  const ratio = claimed ? 1 : (stage.estimate(densityRatio)?.value ?? 1);
  return written(usualPeakPowerSpeed(power / ratio, displacement).speed, 'rotational-speed', 'rpm', 25);
}

function redline(build: Build): string | undefined {
  const peak = numberOf(given(build, 'engine.peak-power-speed'));
  return peak === undefined ? undefined : written(peak * REDLINE_RATIO, 'rotational-speed', 'rpm', 25);
}

function idle(build: Build): string {
  return written(usualIdle(numberOf(given(build, 'engine.cam-duration'))), 'rotational-speed', 'rpm', 25);
}

function injectorQuantity(build: Build): number | undefined {
  return (given(build, 'throttle-body.bores.quantity') as number | undefined) ?? boresFor(build);
}

function boresFor({ values }: Build): number | undefined {
  const cylinders = values.engine?.cylinders;
  return cylinders && (cylinders >= 6 ? 4 : 2);
}

/** The size at the rated pressure, since that is how injectors are sold. */
function staticFlow(build: Build): string | undefined {
  const rated = numberOf(given(build, 'throttle-body.injectors.rated-pressure'));
  const largest = limitOf(build, 'largest-duty');
  if (!largest) return undefined;
  const needed = build.plan.flatMap((stage) => {
    const [flow, pressure] = [stage.estimate(requiredStaticFlow)?.value, stage.estimate(injectorPressure)?.value];
    const onColdest = stage.estimate(requiredStaticFlowColdest)?.value ?? 0;
    return flow && pressure && rated
      ? [Math.max((flow * largest) / CHOSEN_DUTY, onColdest) * Math.sqrt(rated / pressure)]
      : [];
  });
  if (needed.length === 0) return undefined;
  const size = sizeAtLeast(injectorFlows, Math.max(...needed));
  return size === undefined ? undefined : written(size, 'injector-flow', 'lb/h', 1);
}

function boreDiameter(build: Build): string | undefined {
  const most = limitOf(build, 'pressure-drop') ?? 0;
  const diameter = BORES.find((size) => {
    const tried = assuming(build, [
      { place: stepsOf('throttle-body.bores.diameter'), value: `${size} mm`, because: '' },
    ]);
    return tried.plan.every((stage) =>
      [depression, depressionColdest].every((onDay) => {
        const outcome = stage.see(onDay);
        return isKnown(outcome) ? outcome.value <= most : stage.sheet.stage.power === undefined;
      }),
    );
  });
  return diameter === undefined ? undefined : `${diameter} mm`;
}

function bore(build: Build): string | undefined {
  const delivery = deliveryOf(build);
  const fastest = limitOf(build, 'feed-velocity');
  if (!delivery || !fastest) return undefined;
  const size = sizeAtLeast(hoseBores.metric, Math.sqrt((4 * delivery) / (Math.PI * fastest)));
  return size === undefined ? undefined : written(size, 'length', 'mm', 1);
}

function pumpCurve(build: Build): [string, string][] | undefined {
  const work = workOf(build);
  return work && curveThrough(build, work.delivery);
}

/** The curve of a pump with a delivery, m3/s, at the pressure it must work at. */
export function curveThrough(build: Build, delivery: number): [string, string][] | undefined {
  const work = workOf(build);
  return (
    work &&
    CURVE.map(([pressure, flow]) => [
      written(work.pressure * pressure, 'pressure', 'psi', 0.1),
      written(delivery * flow, 'volume-flow', 'L/h', 0.01),
    ])
  );
}

function pumpCurrent(build: Build): string | undefined {
  const work = workOf(build);
  return work === undefined
    ? undefined
    : written(currentFromPower(work.pressure, work.delivery, RATED_VOLTAGE), 'current', 'A', 0.1);
}

/** Pressure, Pa, at which the pump works in the hungriest stage, and the delivery, m3/s, that is assumed of it. */
export function workOf(build: Build): { pressure: number; delivery: number } | undefined {
  const [pressure, delivery] = [highest(build, requiredPressure), deliveryOf(build)];
  return pressure && delivery ? { pressure, delivery } : undefined;
}

/** Delivery, m3/s, of the pump that is assumed. */
function deliveryOf(build: Build): number | undefined {
  const delivery = highest(build, requiredDelivery);
  return delivery && Math.max(delivery, highest(build, requiredDeliveryColdest) ?? 0) * CHOSEN_DELIVERY;
}

function pumpWire(build: Build): string | undefined {
  const area = highest(build, pumpCircuit.wireNeeded);
  const gauge = area && stockedGauges.find((number) => awgArea(number) >= area);
  return gauge ? `${gauge} AWG` : undefined;
}

function pumpFuse(build: Build): string | undefined {
  const current = highest(build, pumpCircuit.fuseNeeded);
  const rating = current && sizeAtLeast(bladeFuses, current);
  return rating ? `${rating} A` : undefined;
}

function limitOf({ plan }: Build, name: Parameters<typeof limit>[0]): number | undefined {
  return plan[0]?.know(limit(name));
}

function numberOf(value: unknown): number | undefined {
  if (typeof value === 'number') return value;
  return isQuantityValue(value) ? value.value : undefined;
}

function textOf(value: unknown): string | undefined {
  return isQuantityValue(value) ? value.text : undefined;
}
