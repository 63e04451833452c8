import { IDLE_VOLUMETRIC_EFFICIENCY } from '../engineering/idle.ts';
import {
  fullLoadEfficiency,
  idleAdvance,
  idleLambda,
  loadShare,
  partLoadEfficiency,
  startingLambda,
  throughIdle,
} from '../engineering/part-load.ts';
import { alcoholExcess, coldFuel, crankingFuel } from '../engineering/starting.ts';
import { startingAdvance, startingTiming } from '../engineering/timing.ts';
import { torqueAt } from '../engineering/torque-curve.ts';
import { sitePressure } from './air.ts';
import { engineBuild } from './believable-power.ts';
import { intakePressure } from './boost.ts';
import { crankingDeadTime } from './cranking.ts';
import { lambda, volumetricEfficiency } from './demand.ts';
import { compressionRatio, displacement, idleSpeed, peakPowerSpeed, redline } from './engine.ts';
import { alcohol, stoichiometric } from './fuel.ts';
import { fullAdvance, retardForNitrous, retardPerBoost } from './full-load-spark.ts';
import { idleManifoldPressure } from './idle.ts';
import { idleInjectorFlow } from './idle-injection.ts';
import { induction } from './induction.ts';
import { injectorCount, pulsesPerCycle } from './injectors.ts';
import { limitedSparkAtLoad } from './knock.ts';
import { fact, optional } from './node.ts';
import { stagePower } from './power.ts';
import { measuredTorque } from './torque.ts';

/**
 * A point of the map to start from: speed, rev/s, absolute manifold pressure, Pa, spark in degrees before top dead center,
 * and the knock-limited spark there on the hottest day, where it is known.
 */
export type StartingPoint = {
  speed: number;
  pressure: number;
  efficiency: number;
  lambda: number;
  spark: number;
  limited?: number;
  /** Whether the speed lies outside what the torque curve is meant for. */
  outside: boolean;
};

/** Steps of the map, rev/s and Pa. */
const SPEED_STEP = 500 / 60;
const PRESSURE_STEP = 10e3;
/** Share of a step by which the highest pressure is over the last step at least. */
const CLOSE = 0.2;

/** Exhaust pressure over that of the air outside with a free exhaust. Common practice. */
const EXHAUST = 1.1;

/** Share of the highest manifold pressure from which an engine counts as fully loaded. Common practice. */
const NEAR_FULL = 0.9;

/** Speed over idle speed up to which mixture and spark of idle hold. Common practice. */
const IDLE_RANGE = 1.3;

const limitedSpark = optional(limitedSparkAtLoad);
/** Efficiency, mixture and spark over speed and manifold pressure to start tuning from. Never a finished tune. */
export const startingMap = fact({
  id: 'starting-map',
  from: {
    stagePower,
    peakPowerSpeed,
    redline,
    idleSpeed,
    idleManifoldPressure,
    volumetricEfficiency,
    compressionRatio,
    sitePressure,
    intakePressure,
    induction,
    lambda,
    retardPerBoost,
    retardForNitrous,
    fullAdvance,
    limitedSpark,
    engineBuild,
    measuredTorque,
  },
  compute: (v): StartingPoint[] => {
    const curve = v.measuredTorque ?? { power: v.stagePower, peakPowerSpeed: v.peakPowerSpeed };
    const torqueAtPeak = torqueAt(curve, v.peakPowerSpeed).torque;
    const exhaust = Math.max(EXHAUST * v.sitePressure, v.induction === 'turbo' ? v.intakePressure : 0);
    const part = (full: number, manifoldPressure: number) =>
      partLoadEfficiency({ full, manifoldPressure, exhaustPressure: exhaust, compressionRatio: v.compressionRatio });
    const breathing = (speed: number) => {
      const { torque, outside } = torqueAt(curve, speed);
      return { full: fullLoadEfficiency(v.volumetricEfficiency, torque, torqueAtPeak), outside };
    };
    const idle = {
      known: IDLE_VOLUMETRIC_EFFICIENCY,
      computed: part(breathing(v.idleSpeed).full, v.idleManifoldPressure),
    };
    const timing = { ...startingTiming(v.induction), fullLoad: v.fullAdvance, retardPerBoost: v.retardPerBoost };
    const build = v.engineBuild ?? 'mild';
    const pressures = pressuresOf(v.intakePressure);
    return speedsOf(v.idleSpeed, v.redline).flatMap((speed) => {
      const { full, outside } = breathing(speed);
      return pressures.map((pressure): StartingPoint => {
        const load = loadShare(pressure, v.idleManifoldPressure, v.sitePressure);
        const isIdle = speed <= IDLE_RANGE * v.idleSpeed && pressure <= v.idleManifoldPressure;
        const isNearFull = pressure >= NEAR_FULL * v.intakePressure;
        const limited = v.limitedSpark?.(speed, pressure / v.intakePressure);
        const advance = startingAdvance(timing, {
          speed,
          idleSpeed: v.idleSpeed,
          manifoldPressure: pressure,
          ambient: v.sitePressure,
          retard: isNearFull ? v.retardForNitrous : 0,
        });
        return {
          speed,
          pressure,
          efficiency: throughIdle(part(full, pressure), load, idle),
          lambda: isIdle ? idleLambda[build] : startingLambda(pressure, v.sitePressure, v.lambda),
          spark: isIdle ? idleAdvance[build] : Math.min(advance, limited ?? advance),
          ...(limited !== undefined && { limited }),
          outside,
        };
      });
    });
  },
});

/** Fuel to start and warm up with at a coolant temperature, K: mass of one cycle of all cylinders, kg; pulses, s. */
export type ColdStart = {
  coolant: number;
  mass: number;
  /** Nothing where dead time or flow while cranking are not known. */
  pulse?: number;
  fired: number;
  fades: number;
  warming: number;
};

/** How long an injector opens while cranking for the fuel of one cycle of all cylinders, s/kg, and its dead time, s. */
const crankingPulse = fact({
  id: 'cranking-pulse',
  from: { injectorCount, pulsesPerCycle, idleInjectorFlow, crankingDeadTime },
  compute: (v) => ({
    perMass: 1 / (v.injectorCount * v.pulsesPerCycle * v.idleInjectorFlow),
    deadTime: v.crankingDeadTime,
  }),
});

/** What the engine is given cold, by coolant temperature. The first fuel at key-on is that of one cycle of cranking. */
export const coldStart = fact({
  id: 'cold-start',
  from: {
    displacement,
    sitePressure,
    stoichiometric,
    alcohol,
    pulse: optional(crankingPulse),
  },
  compute: (v): ColdStart[] => {
    const share = Math.min(1, v.alcohol.ethanol + v.alcohol.methanol);
    const excess = (factor: number) => 1 + (factor - 1) * (1 + (alcoholExcess - 1) * share);
    return coldFuel.map(({ coolant, cranking, fired, fades, warming }) => {
      const mass = crankingFuel({
        displacement: v.displacement,
        pressure: v.sitePressure,
        temperature: coolant,
        stoichiometric: v.stoichiometric,
        factor: excess(cranking),
      });
      const pulse = v.pulse && { pulse: mass * v.pulse.perMass + v.pulse.deadTime };
      return { coolant, mass, ...pulse, fired: excess(fired), fades, warming: excess(warming) };
    });
  },
});

function speedsOf(idle: number, redline: number): number[] {
  const first = Math.ceil(idle / SPEED_STEP) * SPEED_STEP;
  const count = Math.max(1, Math.floor((redline - first) / SPEED_STEP + 1e-9) + 1);
  return Array.from({ length: count }, (_, step) => first + step * SPEED_STEP);
}

/** From 20 kPa in steps to the highest there is, none of them close under it. */
function pressuresOf(highest: number): number[] {
  const steps = Math.ceil((highest - 20e3) / PRESSURE_STEP - CLOSE);
  return [...Array.from({ length: steps }, (_, step) => 20e3 + step * PRESSURE_STEP), highest];
}
