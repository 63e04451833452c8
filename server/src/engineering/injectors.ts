import { notNegative, positive, within } from './bounds.ts';

/** Where the injectors of a throttle body discharge, seen from the throttle plates. */
export type DischargePlace = 'above-throttle' | 'below-throttle';

/**
 * Way of the air: natural; draw-through, the throttle body ahead of the compressor; blow-through, behind it.
 */
export type InductionPath = 'natural' | 'draw-through' | 'blow-through';

/**
 * Absolute pressure (Pa) at the injector's tip. `boost` is the gauge pressure the compressor makes (Pa, 0 when natural
 * or at idle), `manifoldPressure` the absolute pressure in the engine's intake manifold, `ambient` the absolute
 * pressure outside. Pressure balance.
 *
 * Above the plates it is ambient, and boost only where the compressor blows into the throttle body. Below the plates
 * it is the manifold, except ahead of a draw-through compressor, where there is never boost: the pressure there is at
 * most ambient, and is taken as the manifold's while that is lower.
 */
export function dischargePressure(at: {
  place: DischargePlace;
  path: InductionPath;
  boost: number;
  manifoldPressure: number;
  ambient: number;
}): number {
  const ambient = positive(at.ambient, 'The ambient pressure');
  const boost = notNegative(at.boost, 'The boost');
  const manifold = positive(at.manifoldPressure, 'The manifold pressure');
  if (at.place === 'above-throttle') return at.path === 'blow-through' ? ambient + boost : ambient;
  return at.path === 'draw-through' ? Math.min(manifold, ambient) : manifold;
}

/**
 * Gauge pressure (Pa) in the rail for a regulator's setting (gauge Pa): unchanged when it is vented to the atmosphere
 * (`reference` = ambient), 1:1 with the absolute pressure it is referenced to otherwise. Pressure balance. Throws
 * `RangeError` when nothing is left.
 */
export function railPressure(setting: number, reference: number, ambient: number): number {
  const shift = positive(reference, 'The reference pressure') - positive(ambient, 'The ambient pressure');
  return positive(positive(setting, 'The regulator setting') + shift, 'The rail pressure');
}

/**
 * Pressure across the injector (Pa): rail gauge pressure + ambient - absolute pressure at the tip. Pressure balance.
 * Throws `RangeError` when the rail does not exceed the pressure at the tip: no fuel would flow.
 */
export function pressureAcross(railGauge: number, ambient: number, discharge: number): number {
  const across =
    positive(railGauge, 'The rail pressure') +
    positive(ambient, 'The ambient pressure') -
    positive(discharge, 'The pressure at the injector tip');
  if (across > 0) return across;
  throw new RangeError('The pressure at the injector tip is as high as the rail pressure, so no fuel flows.');
}

/**
 * Static flow of an injector at another pressure and, when both are given, another fuel density: rated flow *
 * sqrt(pressure / rated pressure * density / rated density). Mass flows in kg/s, pressures across the injector in Pa,
 * densities in kg/m3. Orifice equation m = Cd A sqrt(2 rho dP) (Bernoulli).
 */
export function staticFlow(
  ratedFlow: number,
  ratedPressure: number,
  pressure: number,
  fuel?: { density: number; ratedDensity: number },
): number {
  const pressures =
    positive(pressure, 'The pressure across the injector') / positive(ratedPressure, 'The rated pressure');
  const densities = fuel
    ? positive(fuel.density, 'The fuel density') / positive(fuel.ratedDensity, 'The density of the rating')
    : 1;
  return positive(ratedFlow, 'The rated flow') * Math.sqrt(pressures * densities);
}

/** Pressure across the injector (Pa) at which it passes `flow` (kg/s) in place of its rating. Orifice equation. */
export function pressureForFlow(flow: number, ratedFlow: number, ratedPressure: number): number {
  const ratio = positive(flow, 'The flow wanted') / positive(ratedFlow, 'The rated flow');
  return positive(ratedPressure, 'The rated pressure') * ratio ** 2;
}

/** When an injector opens, in the four-stroke cycle of 720 degrees. */
export type FiringScheme = 'once-per-cycle' | 'twice-per-cycle' | 'every-ignition-event' | 'alternating';

/**
 * Pulses of one injector per cycle: one, two (one a revolution), one for every ignition event (as many as cylinders),
 * or, with the injectors alternating, one for every other ignition event. Kinematics.
 */
export function pulsesPerCycle(scheme: FiringScheme, cylinders: number): number {
  positive(cylinders, 'The number of cylinders');
  if (!Number.isInteger(cylinders))
    throw new RangeError(`The number of cylinders must be whole, but it is ${cylinders}.`);
  const pulses: Record<FiringScheme, number> = {
    'once-per-cycle': 1,
    'twice-per-cycle': 2,
    'every-ignition-event': cylinders,
    alternating: cylinders / 2,
  };
  return pulses[scheme];
}

/** Time of one four-stroke cycle (s) at a speed (rev/s): 2 / N. Kinematics. */
export function cycleTime(speed: number): number {
  return 2 / positive(speed, 'The engine speed');
}

/** Time from pulse to pulse of one injector (s). Kinematics. */
export function pulsePeriod(speed: number, pulses: number): number {
  return cycleTime(speed) / positive(pulses, 'The number of pulses per cycle');
}

/** How one injector works at one engine speed: static flow kg/s, dead time s, speed rev/s. */
export type Injection = { staticFlow: number; deadTime: number; speed: number; pulsesPerCycle: number };

/** Commanded pulse (s) for a mean flow (kg/s) of one injector: flow / static flow * period + dead time. Kinematics. */
export function pulseWidth(flow: number, injection: Injection): number {
  const share = positive(flow, 'The flow per injector') / positive(injection.staticFlow, 'The static flow');
  const period = pulsePeriod(injection.speed, injection.pulsesPerCycle);
  return share * period + notNegative(injection.deadTime, 'The dead time');
}

/**
 * Commanded duty for a mean flow (kg/s) of one injector: flow / static flow + dead time / period. Above 1 the injector
 * cannot deliver the flow. Kinematics.
 */
export function duty(flow: number, injection: Injection): number {
  return pulseWidth(flow, injection) / pulsePeriod(injection.speed, injection.pulsesPerCycle);
}

/** Mean flow (kg/s) of one injector held at a duty (above 0, up to 1); the inverse of `duty`. Throws `RangeError` when dead time takes it all. */
export function flowAtDuty(duty: number, injection: Injection): number {
  return positive(injection.staticFlow, 'The static flow') * openShare(duty, injection);
}

/**
 * Static flow (kg/s) one injector needs to deliver a mean flow (kg/s) at a duty limit (above 0, up to 1):
 * flow / (limit - dead time / period). Throws `RangeError` when dead time alone reaches the limit.
 */
export function requiredStaticFlow(flow: number, limit: number, injection: Omit<Injection, 'staticFlow'>): number {
  return positive(flow, 'The flow per injector') / openShare(limit, injection);
}

function openShare(duty: number, injection: Omit<Injection, 'staticFlow'>): number {
  within(positive(duty, 'The duty'), 0, 1, 'The duty');
  const dead =
    notNegative(injection.deadTime, 'The dead time') / pulsePeriod(injection.speed, injection.pulsesPerCycle);
  if (dead < duty) return duty - dead;
  throw new RangeError(
    `Dead time alone takes ${(100 * dead).toFixed(0)} % of the time between pulses, so no injector meets a duty of ${(100 * duty).toFixed(0)} %.`,
  );
}
