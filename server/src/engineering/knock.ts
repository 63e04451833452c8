import { finite, positive, within } from './bounds.ts';
import { ATMOSPHERE, GAS_CONSTANT } from './constants.ts';
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

/** Crank degrees of one step, trapezoids; the limited spark moves by under 0.05 degree when it is halved. */
const STEP = 2;

/**
 * Livengood and Wu's integral of dt / delay over the end gas, from intake closing to the end of burning, for a spark in
 * crank degrees before top dead center. Single zone: pressure from the volume (slider crank) and a Wiebe burn that begins
 * at the spark; the end gas follows the pressure by a polytrope. Its value means nothing by itself: see `knockIndex`.
 * Source: J. C. Livengood and P. C. Wu, 5th Symp. on Combustion (1955); Heywood eqs. 2.6, 9.28 and section 9.2; from memory.
 * @throws RangeError for a quantity out of its range
 */
export function knockIntegral(cylinder: Cylinder, spark: number, burn: Burn = usualBurn): number {
  check(cylinder, spark, burn);
  const { compressionRatio, closing, pressure, temperature, octane, speed } = cylinder;
  const gamma = burn.cylinderExponent;
  const endGas = (burn.endGasExponent - 1) / burn.endGasExponent;
  const start = closing - 180;
  const end = burn.duration - spark;
  const steps = Math.ceil((end - start) / STEP);
  const width = (end - start) / steps;
  const volumeAt = (angle: number) => volume(compressionRatio, burn.rodRatio, angle);

  const first = volumeAt(start);
  const mass = first / (GAS_CONSTANT * temperature);
  const heat = (gamma - 1) * burn.heatRelease * (cylinder.energyRatio ?? 1) * mass;
  let before = first;
  let burned = 0;
  let work = first ** gamma;
  let rate = Math.exp(-3800 / temperature);
  let sum = 0;
  for (let i = 1; i <= steps; i++) {
    const angle = start + i * width;
    const after = volumeAt(angle);
    const share = burnedShare(burn, (angle + spark) / burn.duration);
    if (share > burned) work += heat * (share - burned) * ((before + after) / 2) ** (gamma - 1);
    const rise = Math.log(work) - gamma * Math.log(after);
    const next = Math.exp(1.7 * rise - 3800 / (temperature * Math.exp(endGas * rise)));
    sum += (rate + next) / 2;
    rate = next;
    before = after;
    burned = share;
  }
  const cold = ignitionDelay(octane, pressure, temperature) * Math.exp(-3800 / temperature);
  return (sum * width) / (360 * speed * cold);
}

/** Cylinder head material; aluminum keeps the chamber cooler. */
export type HeadMaterial = 'iron' | 'aluminum';

/** Compression that the trade runs on pump premium at full advance, by head. Common practice. */
export const referenceCompression: Readonly<Record<HeadMaterial, number>> = { iron: 9.5, aluminum: 10.5 };

/** Full advance of the reference engine, crank degrees before top dead center. Common practice. */
export const REFERENCE_SPARK = 34;

/** Intake closing of the reference engine, degrees after bottom dead center. Common practice, from memory. */
export const REFERENCE_CLOSING = 50;

const references = new Map<Burn, Partial<Record<HeadMaterial, number>>>();

/** Integral of the reference engine: `referenceCompression`, 91 AKI, 34 degrees, 3,000 rpm, charge of one atmosphere and 330 K. */
function referenceIntegral(head: HeadMaterial, burn: Burn): number {
  const known = references.get(burn) ?? {};
  references.set(burn, known);
  known[head] ??= knockIntegral(
    {
      compressionRatio: referenceCompression[head],
      closing: REFERENCE_CLOSING,
      pressure: ATMOSPHERE,
      temperature: 330,
      octane: 91,
      speed: 50,
    },
    REFERENCE_SPARK,
    burn,
  );
  return known[head];
}

/**
 * Relative knock index: `knockIntegral` over that of an engine the trade knows to live, by the same code. 1 is the limit.
 * An estimate for a second look, never a clearance. @throws RangeError as `knockIntegral`
 */
export function knockIndex(cylinder: Cylinder, spark: number, head: HeadMaterial, burn: Burn = usualBurn): number {
  return knockIntegral(cylinder, spark, burn) / referenceIntegral(head, burn);
}

/** Sparks, crank degrees before top dead center, between which the limited spark is looked for. */
export const sparkRange = { latest: -10, earliest: 50 } as const;

/** The spark at which the index is 1; `free`: it is not reached by any spark in the range; `never`: it is passed by all. */
export type LimitedSpark = { readonly spark: number; readonly limit: 'at' | 'free' | 'never' };

/**
 * Knock-limited spark, crank degrees before top dead center: where `knockIndex` is 1. @throws RangeError as `knockIntegral`
 */
export function limitedSpark(cylinder: Cylinder, head: HeadMaterial, burn: Burn = usualBurn): LimitedSpark {
  const excess = (spark: number) => Math.log(knockIndex(cylinder, spark, head, burn));
  if (excess(sparkRange.earliest) <= 0) return { spark: sparkRange.earliest, limit: 'free' };
  if (excess(sparkRange.latest) >= 0) return { spark: sparkRange.latest, limit: 'never' };
  return { spark: findRoot(excess, sparkRange.latest, sparkRange.earliest, 0.02), limit: 'at' };
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

/** Share burned at a share of the burn's duration. I. I. Wiebe; Heywood eq. 9.9. */
function burnedShare(burn: Burn, progress: number): number {
  if (progress <= 0) return 0;
  return 1 - Math.exp(-burn.efficiencyFactor * Math.min(1, progress) ** (burn.formFactor + 1));
}

function check(cylinder: Cylinder, spark: number, burn: Burn): void {
  within(cylinder.compressionRatio, 4, 20, 'The compression ratio');
  within(cylinder.closing, 0, 110, 'The closing of the intake valve');
  positive(cylinder.pressure, 'The pressure of the charge');
  within(cylinder.temperature, 200, 600, 'The temperature of the charge in K');
  positive(cylinder.octane, 'The octane number');
  positive(cylinder.speed, 'The engine speed');
  positive(cylinder.energyRatio ?? 1, 'The energy of the cycle');
  within(finite(spark, 'The spark'), -30, 60, 'The spark');
  within(burn.rodRatio, 2, 10, 'The rod ratio');
  within(burn.duration, 10, 120, 'The duration of the burn');
  positive(burn.efficiencyFactor, "Wiebe's efficiency factor");
  positive(burn.formFactor, "Wiebe's form factor");
  positive(burn.heatRelease, 'The heat release');
  within(burn.cylinderExponent, 1.1, 1.4, 'The exponent of the cylinder');
  within(burn.endGasExponent, 1.1, 1.4, 'The exponent of the end gas');
}
