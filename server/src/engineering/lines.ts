import { finite, notNegative, positive, within } from './bounds.ts';
import { GRAVITY } from './constants.ts';

/** A liquid at the temperature it flows at: density in kg/m3, kinematic viscosity in m2/s. */
export type Liquid = { readonly density: number; readonly viscosity: number };

/** A run of tube or hose: inside diameter, length, roughness of the wall and rise from start to end, all in m. */
export type Line = {
  readonly diameter: number;
  readonly length: number;
  readonly roughness: number;
  /** Elbows of 90 degrees. */
  readonly elbows90?: number | undefined;
  /** Elbows of 45 degrees. */
  readonly elbows45?: number | undefined;
  /** Height of the end above the start, m; negative when the line falls. */
  readonly rise?: number | undefined;
};

/** What a flow does in a line: velocity in m/s, losses in Pa; the friction factor of a liquid at rest is given as 0. */
export type LineLoss = {
  readonly velocity: number;
  readonly reynolds: number;
  readonly frictionFactor: number;
  readonly straight: number;
  readonly fittings: number;
  readonly friction: number;
};

/**
 * Length of straight line, in inside diameters, that loses as much as the fitting, at the friction factor of the flow.
 * Source: Crane TP-410, table of L/D. Its other form, K = 30 times the fully turbulent factor, gives about 17 % more
 * in small smooth tube; this tool uses L/D with the actual friction factor, and the other form on the suction side
 * (`suctionLineLoss`).
 */
export const equivalentDiameters = { elbow90: 30, elbow45: 16 } as const;

/** Roughness of the wall, m. */
export const roughness = {
  drawnTube: { value: 1.5e-6, source: 'L. F. Moody, Trans. ASME 66 (1944) 671: drawn tubing 0.000005 ft' },
  steelPipe: { value: 4.5e-5, source: 'L. F. Moody, Trans. ASME 66 (1944) 671: commercial steel 0.00015 ft' },
  rubberHose: { value: 1e-5, source: 'from memory: smooth rubber hose, 6 to 70 micrometers in handbooks' },
  ptfeHose: { value: 1.5e-6, source: 'from memory: smooth plastic, as drawn tubing' },
} as const;

/** Reynolds numbers between which the flow is neither surely laminar nor surely turbulent. */
export const transition = { from: 2000, to: 4000 } as const;

/** Area of a round bore, m2, from its diameter in m. @throws RangeError unless the diameter is above zero. */
export function boreArea(diameter: number): number {
  return (Math.PI / 4) * positive(diameter, "The line's inside diameter") ** 2;
}

/** Mean velocity, m/s, of a volume flow in m3/s through a round bore, diameter in m (continuity). @throws RangeError */
export function velocity(flow: number, diameter: number): number {
  return notNegative(flow, 'The flow') / boreArea(diameter);
}

/** Inside diameter, m, at which a volume flow in m3/s has the velocity in m/s (continuity). @throws RangeError */
export function boreForVelocity(flow: number, speed: number): number {
  return Math.sqrt((4 * notNegative(flow, 'The flow')) / (Math.PI * positive(speed, 'The velocity')));
}

/** Reynolds number v d / nu of a volume flow, m3/s, in a bore, m, with kinematic viscosity, m2/s. @throws RangeError */
export function reynolds(flow: number, diameter: number, viscosity: number): number {
  return (velocity(flow, diameter) * diameter) / positive(viscosity, 'The kinematic viscosity');
}

/**
 * Darcy friction factor, explicit, for turbulent flow; within about 1.3 % of Colebrook. Starts the solution of Colebrook.
 * Source: P. K. Swamee and A. K. Jain, J. Hydraulics Div. ASCE 102 (1976) 657-664.
 * @throws RangeError unless re is above 2000 and the relative roughness from 0 to 0.05
 */
export function swameeJain(re: number, relativeRoughness: number): number {
  checkTurbulent(re, relativeRoughness);
  const logarithm = Math.log10(relativeRoughness / 3.7 + 5.74 / re ** 0.9);
  return 0.25 / (logarithm * logarithm);
}

/**
 * Darcy friction factor of turbulent flow, solved by Newton's method to rounding (a step under 1e-8 leaves 1e-16).
 * Source: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156: 1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51/(Re sqrt(f))).
 * @throws RangeError unless re is above 2000 and the relative roughness from 0 to 0.05
 */
export function colebrook(re: number, relativeRoughness: number): number {
  let x = 1 / Math.sqrt(swameeJain(re, relativeRoughness));
  const rough = relativeRoughness / 3.7;
  const smooth = 2.51 / re;
  const decade = 2 / Math.LN10;
  for (let i = 0; i < 20; i++) {
    const inside = rough + smooth * x;
    const change = (x + decade * Math.log(inside)) / (1 + (decade * smooth) / inside);
    x -= change;
    if (Math.abs(change) < 1e-8 * x) break;
  }
  return 1 / (x * x);
}

/**
 * Darcy friction factor: laminar 64/Re (Hagen-Poiseuille) up to Re 2000, Colebrook from Re 4000, and between them a
 * straight line in Re from one to the other. Continuous everywhere. The straight line is this tool's choice: flow
 * there is intermittent and no formula holds; it lies under Colebrook by up to a third, where losses are small anyway.
 * @throws RangeError unless re is above zero and the relative roughness from 0 to 0.05 (the range of Moody's chart)
 */
export function frictionFactor(re: number, relativeRoughness: number): number {
  positive(re, 'The Reynolds number');
  if (re <= transition.from) {
    checkRoughness(relativeRoughness);
    return 64 / re;
  }
  if (re >= transition.to) return colebrook(re, relativeRoughness);
  const laminar = 64 / transition.from;
  const share = (re - transition.from) / (transition.to - transition.from);
  return laminar + share * (colebrook(transition.to, relativeRoughness) - laminar);
}

/**
 * Velocity, Reynolds number, friction factor and pressure losses, Pa, of a volume flow in m3/s through a line.
 * Static head is not in it: see `staticHead`.
 * Source: Darcy-Weisbach, dP = f (L/D) rho v2/2; fittings by equivalent length (Crane TP-410, see `equivalentDiameters`).
 * @throws RangeError for a quantity out of its range
 */
export function lineLoss(line: Line, liquid: Liquid, flow: number): LineLoss {
  const speed = velocity(flow, line.diameter);
  const re = reynolds(flow, line.diameter, liquid.viscosity);
  const dynamic = (positive(liquid.density, 'The density') * speed ** 2) / 2;
  const relativeRoughness = notNegative(line.roughness, 'The roughness') / line.diameter;
  const factor = dynamic > 0 ? frictionFactor(re, relativeRoughness) : 0;
  const straight = factor * (notNegative(line.length, "The line's length") / line.diameter) * dynamic;
  const fittings = factor * fittingDiameters(line) * dynamic;
  return { velocity: speed, reynolds: re, frictionFactor: factor, straight, fittings, friction: straight + fittings };
}

/**
 * Friction factor of the line's size in fully turbulent flow, fT, by which Crane TP-410 gives fittings: 0.25 / log10(e / 3.7
 * D)^2, Colebrook's rough end with commercial steel. Crane's own table starts at 1/2 in; smaller bores go on by the same formula.
 * Source: Crane TP-410 (1988), appendix A; L. F. Moody (1944). @throws RangeError unless the diameter is from 2 mm up
 */
export function fullyTurbulentFactor(diameter: number, wall: number = roughness.steelPipe.value): number {
  within(diameter, 0.002, 1, "The line's inside diameter", 'length');
  return 0.25 / Math.log10(notNegative(wall, 'The roughness') / (3.7 * diameter)) ** 2;
}

/**
 * As `lineLoss`, for the suction side of a pump, where too small a loss is the dangerous one: fittings by K = 30 fT (16 fT
 * for 45 degrees), or by the actual friction factor where that is more. Source: Crane TP-410 with `fullyTurbulentFactor`.
 * @throws RangeError for a quantity out of its range
 */
export function suctionLineLoss(line: Line, liquid: Liquid, flow: number): LineLoss {
  const loss = lineLoss(line, liquid, flow);
  if (loss.frictionFactor === 0) return loss;
  const fittings = loss.fittings * Math.max(1, fullyTurbulentFactor(line.diameter) / loss.frictionFactor);
  return { ...loss, fittings, friction: loss.straight + fittings };
}

/** What a way of several lines loses: to friction, and to the height it climbs (negative when it falls), Pa. */
export type WayLoss = { readonly friction: number; readonly static: number };

/**
 * Loss, Pa, of a volume flow, m3/s, through lines one after the other, friction and static head apart: a return line that
 * falls to the tank hides its friction in their sum. `lossOf`: `lineLoss`, or `suctionLineLoss` ahead of a pump. Source:
 * see those and `staticHead`. @throws RangeError
 */
export function wayLoss(lines: readonly Line[], liquid: Liquid, flow: number, lossOf = lineLoss): WayLoss {
  let friction = 0;
  let head = 0;
  for (const line of lines) {
    friction += lossOf(line, liquid, flow).friction;
    head += staticHead(liquid.density, line.rise ?? 0);
  }
  return { friction, static: head };
}

/** Pressure, Pa, that a column of the liquid, kg/m3, takes to rise by `rise` m; negative when it falls. @throws RangeError */
export function staticHead(density: number, rise: number): number {
  return positive(density, 'The density') * GRAVITY * finite(rise, 'The rise');
}

function fittingDiameters(line: Line): number {
  return (
    notNegative(line.elbows90 ?? 0, 'The number of 90 degree elbows') * equivalentDiameters.elbow90 +
    notNegative(line.elbows45 ?? 0, 'The number of 45 degree elbows') * equivalentDiameters.elbow45
  );
}

function checkTurbulent(re: number, relativeRoughness: number): void {
  if (finite(re, 'The Reynolds number') <= transition.from) {
    throw new RangeError(
      `Colebrook's formula is for turbulent flow above Re ${transition.from}, but Re is ${Math.round(re)}.`,
    );
  }
  checkRoughness(relativeRoughness);
}

function checkRoughness(relativeRoughness: number): void {
  within(relativeRoughness, 0, 0.05, 'The roughness of the line over its inside diameter');
}
