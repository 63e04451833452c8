import { positive, within } from './bounds.ts';
import { ATMOSPHERE, GAS_CONSTANT } from './constants.ts';
import { type Curve, curveAt, pchip } from './interpolation.ts';
import { findRoot } from './roots.ts';

/**
 * Time, s, in which gasoline mixture of a pressure, Pa, and temperature, K, would ignite by itself, by its octane number:
 * 17.68 ms (ON / 100)^3.402 p^-1.7 exp(3800 / T), p in atm. Made for 80 to 100 octane; alcohols are outside it.
 * Source: A. M. Douaud and P. Eyzat, SAE 780080 (1978); Heywood eq. 9.29; from memory.
 * @throws RangeError unless all are above zero
 */
export function ignitionDelay(octane: number, pressure: number, temperature: number): number {
  const strength = (positive(octane, 'The octane number') / 100) ** 3.402;
  const atmospheres = positive(pressure, 'The pressure of the end gas') / ATMOSPHERE;
  return 0.01768 * strength * atmospheres ** -1.7 * Math.exp(3800 / positive(temperature, 'Its temperature'));
}

/** What the model of a burn takes, all of it open to change. */
export type Burn = {
  /** Connecting rod over crank radius. */
  readonly rodRatio: number;
  /** Crank degrees from spark to the end of burning. */
  readonly duration: number;
  /** Wiebe's efficiency factor and form factor: x = 1 - exp(-a y^(m+1)). */
  readonly efficiencyFactor: number;
  readonly formFactor: number;
  /** Heat that reaches the gas, J per kg of charge. */
  readonly heatRelease: number;
  /** Polytropic exponent of the cylinder's gas. */
  readonly cylinderExponent: number;
  /** Polytropic exponent by which the end gas is compressed. */
  readonly endGasExponent: number;
};

/**
 * Usual burn: rod ratio 3.5; 60 crank degrees; Wiebe a = 5, m = 2 (Heywood section 9.2.3); 1.9 MJ/kg, some 2.75 of a
 * stoichiometric mixture less residual gas, walls and what burns late; exponents 1.3 and 1.32 (Heywood section 9.2.2: about
 * 1.3 for unburned mixture). From memory; ratios of the integral depend little on them, its own value much.
 */
export const usualBurn: Burn = {
  rodRatio: 3.5,
  duration: 60,
  efficiencyFactor: 5,
  formFactor: 2,
  heatRelease: 1.9e6,
  cylinderExponent: 1.3,
  endGasExponent: 1.32,
};

/**
 * A cylinder at full load: compression ratio; intake valve closing, degrees after bottom dead center; absolute pressure, Pa,
 * and temperature, K, of the charge; octane (AKI); speed, rev/s; heat of a cycle over the usual (nitrous oxide).
 */
export type Cylinder = {
  readonly compressionRatio: number;
  readonly closing: number;
  readonly pressure: number;
  readonly temperature: number;
  readonly octane: number;
  readonly speed: number;
  readonly energyRatio?: number | undefined;
};

/** Crank degrees of one step, trapezoids; the limited spark moves by under 0.01 degree when it is halved. */
const STEP = 3;

/** Sparks, crank degrees before top dead center, between which the limited spark is looked for. */
export const sparkRange = { latest: -12, earliest: 48 } as const;

/** Sparks at which the integral is taken, each a whole number of steps; between them its logarithm is a smooth curve. */
const SPARKS = Array.from({ length: 11 }, (_, i) => sparkRange.latest + 6 * i);

/**
 * Logarithm of Livengood and Wu's integral of dt / delay over the end gas, from intake closing to the end of burning, by
 * the spark in crank degrees before top dead center. Single zone: pressure from the volume (slider crank) and a Wiebe burn
 * that begins at the spark; the end gas follows the pressure by a polytrope. Its value means nothing by itself: see
 * `indexOn`. All sparks share volumes and compression, so that a curve costs little more than one spark.
 * Source: J. C. Livengood and P. C. Wu, 5th Symp. on Combustion (1955); Heywood eqs. 2.6, 9.28 and section 9.2; from memory.
 * @throws RangeError for a quantity out of its range
 */
export function knockCurve(cylinder: Cylinder, burn: Burn = usualBurn): Curve {
  check(cylinder, burn);
  const { pressure, temperature, octane, speed } = cylinder;
  const cold = ignitionDelay(octane, pressure, temperature) * Math.exp(-3800 / temperature);
  const scale = Math.log(360 * speed * cold);
  const stroke = strokeOf(cylinder, burn);
  return pchip(
    SPARKS,
    SPARKS.map((spark) => Math.log(degreesOf(stroke, temperature, burn, spark)) - scale),
  );
}

/** By step from the first after intake closing: logarithm of the expansion, factor of the heat, integral without a fire. */
type Stroke = {
  readonly first: number;
  readonly expansions: readonly number[];
  readonly heats: readonly number[];
  readonly sums: readonly number[];
};

function strokeOf(cylinder: Cylinder, burn: Burn): Stroke {
  const { compressionRatio, closing, temperature, energyRatio = 1 } = cylinder;
  const gamma = burn.cylinderExponent;
  const heat = ((gamma - 1) * burn.heatRelease * energyRatio) / (GAS_CONSTANT * temperature);
  const first = Math.ceil((closing - 180) / STEP);
  const last = Math.ceil((burn.duration - sparkRange.latest) / STEP);
  const initial = volume(compressionRatio, burn.rodRatio, closing - 180);
  const [expansions, heats, sums]: [number[], number[], number[]] = [[], [], []];
  let expansion = 0;
  let rate = rateAt(0, temperature, burn);
  let width = first * STEP - (closing - 180);
  let sum = 0;
  for (let step = first; step <= last; step++) {
    const next = gamma * Math.log(volume(compressionRatio, burn.rodRatio, step * STEP) / initial);
    expansions.push(next);
    heats.push(heat * Math.exp(((gamma - 1) / (2 * gamma)) * (expansion + next)));
    expansion = next;
    if (step * STEP > -sparkRange.latest) continue;
    const after = rateAt(-next, temperature, burn);
    sum += (width * (rate + after)) / 2;
    sums.push(sum);
    rate = after;
    width = STEP;
  }
  return { first, expansions, heats, sums };
}

/** The integral in crank degrees, in parts of the rate of the cold charge, for a spark on one of the steps. */
function degreesOf(stroke: Stroke, temperature: number, burn: Burn, spark: number): number {
  const fire = -spark / STEP - stroke.first;
  const shares = sharesOf(burn);
  let work = 1;
  let rate = rateAt(-(stroke.expansions[fire] as number), temperature, burn);
  let sum = stroke.sums[fire] as number;
  for (let step = 1; step < shares.length; step++) {
    work += ((shares[step] as number) - (shares[step - 1] as number)) * (stroke.heats[fire + step] as number);
    const next = rateAt(Math.log(work) - (stroke.expansions[fire + step] as number), temperature, burn);
    sum += (Math.min(STEP, burn.duration - (step - 1) * STEP) * (rate + next)) / 2;
    rate = next;
  }
  return sum;
}

const shares = new WeakMap<Burn, readonly number[]>();

/** Share burned by step from the spark to the end of burning. I. I. Wiebe; Heywood eq. 9.9. */
function sharesOf(burn: Burn): readonly number[] {
  const known = shares.get(burn);
  if (known) return known;
  const { duration, efficiencyFactor, formFactor } = burn;
  const found = Array.from({ length: Math.ceil(duration / STEP) + 1 }, (_, step) => {
    const progress = Math.min(1, (step * STEP) / duration);
    return 1 - Math.exp(-efficiencyFactor * progress ** (formFactor + 1));
  });
  shares.set(burn, found);
  return found;
}

/** Rate of the integral over that of pressure and delay alone, at a rise of the pressure given as its logarithm. */
function rateAt(rise: number, temperature: number, { endGasExponent }: Burn): number {
  const endGas = (endGasExponent - 1) / endGasExponent;
  return Math.exp(1.7 * rise - 3800 / (temperature * Math.exp(endGas * rise)));
}

/** Cylinder head material; aluminum keeps the chamber cooler. */
export type HeadMaterial = 'iron' | 'aluminum';

/** Compression that the trade runs on pump premium at full advance, by head. Common practice. */
export const referenceCompression: Readonly<Record<HeadMaterial, number>> = { iron: 9.5, aluminum: 10.5 };

/** Full advance of the reference engine, crank degrees before top dead center. Common practice. */
export const REFERENCE_SPARK = 34;

/** Speed at which engines are judged, rev/s: 3,000 rpm, where full advance is in and there is most time to knock. */
export const REFERENCE_SPEED = 50;

/** Air the trade's limits are meant in, K: an ordinary warm day of 25 degC. Common practice. */
export const REFERENCE_AIR = 298.15;

/** Intake closing of the reference engine, degrees after bottom dead center. Common practice, from memory. */
export const REFERENCE_CLOSING = 50;

/** By burn, each worked out once. */
const references = new WeakMap<Burn, Partial<Record<HeadMaterial, number>>>();

/** Logarithm of the integral of the reference engine: `referenceCompression`, 91 AKI, 34 degrees, 3,000 rpm, charge of one atmosphere and 330 K. */
function referenceOf(head: HeadMaterial, burn: Burn): number {
  const known = references.get(burn) ?? {};
  references.set(burn, known);
  known[head] ??= along(
    knockCurve(
      {
        compressionRatio: referenceCompression[head],
        closing: REFERENCE_CLOSING,
        pressure: ATMOSPHERE,
        temperature: 330,
        octane: 91,
        speed: REFERENCE_SPEED,
      },
      burn,
    ),
    REFERENCE_SPARK,
  );
  return known[head];
}

/**
 * Relative knock index at a spark, degrees before top dead center: the integral over that of an engine the trade knows to
 * live, by the same code and the same burn. 1 is the limit. An estimate for a second look, never a clearance.
 * @throws RangeError for a spark not from -60 to 90
 */
export function indexOn(curve: Curve, spark: number, head: HeadMaterial, burn: Burn = usualBurn): number {
  return Math.exp(along(curve, within(spark, -60, 90, 'The spark')) - referenceOf(head, burn));
}

/** `indexOn` of a cylinder. @throws RangeError as `knockCurve` and `indexOn` */
export function knockIndex(cylinder: Cylinder, spark: number, head: HeadMaterial, burn: Burn = usualBurn): number {
  return indexOn(knockCurve(cylinder, burn), spark, head, burn);
}

/** How much more of the integral aluminum heads stand than iron ones: the ratio of their reference engines. */
export function aluminumAllowance(burn: Burn = usualBurn): number {
  return Math.exp(referenceOf('aluminum', burn) - referenceOf('iron', burn));
}

/** The spark at which the index is 1; `free`: it is not reached by any spark in the range; `never`: it is passed by all. */
export type LimitedSpark = { readonly spark: number; readonly limit: 'at' | 'free' | 'never' };

/**
 * Knock-limited spark, crank degrees before top dead center: where the index is `most`, at so many times the speed of the
 * curve. Time, and with it the integral, goes with one over speed. @throws RangeError unless `most` and speed are above zero
 */
export function limitedSparkOn(
  curve: Curve,
  head: HeadMaterial,
  burn: Burn = usualBurn,
  { most = 1, faster = 1 } = {},
): LimitedSpark {
  const goal = referenceOf(head, burn) + Math.log(positive(most, 'The index') * positive(faster, 'The speed'));
  if (along(curve, sparkRange.earliest) <= goal) return { spark: sparkRange.earliest, limit: 'free' };
  if (along(curve, sparkRange.latest) >= goal) return { spark: sparkRange.latest, limit: 'never' };
  const spark = findRoot((at) => curveAt(curve, at) - goal, sparkRange.latest, sparkRange.earliest, 1e-3);
  return { spark, limit: 'at' };
}

/**
 * The index that a charge of the full-load curve may have where only a share of its pressure is let in, to be at 1 there:
 * the delay goes with p^-1.7 and every pressure of a cycle with that of the charge, so that its temperature stays the same.
 * Source: as `ignitionDelay`. @throws RangeError unless the share is above zero
 */
export function indexAtShare(share: number): number {
  return positive(share, 'The share of the pressure') ** -1.7;
}

/** `limitedSparkOn` of a cylinder. @throws RangeError as `knockCurve` */
export function limitedSpark(cylinder: Cylinder, head: HeadMaterial, burn: Burn = usualBurn): LimitedSpark {
  return limitedSparkOn(knockCurve(cylinder, burn), head, burn);
}

/** The curve at a spark, beyond its ends as steep as there. */
function along(curve: Curve, spark: number): number {
  const { latest, earliest } = sparkRange;
  const within = Math.min(earliest, Math.max(latest, spark));
  const slope = curve.slope[spark < latest ? 0 : curve.slope.length - 1] as number;
  return curveAt(curve, within) + (spark - within) * slope;
}

/**
 * Effective closing of the intake valve, degrees after bottom dead center, from the duration at 0.050 in lift: that of a cam
 * with its center 108 degrees after top dead center, 20 degrees after the 0.050 in mark. Common practice, from memory.
 * @throws RangeError outside 150 to 330 degrees
 */
export function closingOfCam(duration: number): number {
  return 108 + (within(duration, 150, 330, 'The cam duration in degrees') + 40) / 2 - 180;
}

/** Cylinder volume over the swept volume at a crank angle, degrees after top dead center. Heywood eq. 2.6. */
function volume(compressionRatio: number, rodRatio: number, angle: number): number {
  const cosine = Math.cos((angle * Math.PI) / 180);
  const travel = rodRatio + 1 - cosine - Math.sqrt(rodRatio * rodRatio - 1 + cosine * cosine);
  return 1 / (compressionRatio - 1) + travel / 2;
}

function check(cylinder: Cylinder, burn: Burn): void {
  within(cylinder.compressionRatio, 4, 20, 'The compression ratio');
  within(cylinder.closing, 0, 120, 'The closing of the intake valve');
  positive(cylinder.pressure, 'The pressure of the charge');
  within(cylinder.temperature, 200, 600, 'The temperature of the charge in K');
  positive(cylinder.octane, 'The octane number');
  positive(cylinder.speed, 'The engine speed');
  positive(cylinder.energyRatio ?? 1, 'The energy of the cycle');
  within(burn.rodRatio, 2, 10, 'The rod ratio');
  within(burn.duration, 10, 120, 'The duration of the burn');
  positive(burn.efficiencyFactor, "Wiebe's efficiency factor");
  positive(burn.formFactor, "Wiebe's form factor");
  positive(burn.heatRelease, 'The heat release');
  within(burn.cylinderExponent, 1.1, 1.4, 'The exponent of the cylinder');
  within(burn.endGasExponent, 1.1, 1.4, 'The exponent of the end gas');
}
