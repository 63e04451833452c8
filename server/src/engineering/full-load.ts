import { chargeTemperature } from './charge.ts';
import { type Ambient, type Charger, chargeOf, type Keeps } from './day.ts';
import type { Fuel } from './fuels.ts';
import { type Cylinder, REFERENCE_SPEED } from './knock.ts';
import { nitrousCooling, nitrousEnergyRatio } from './nitrous.ts';
import { fullLoadSpark } from './timing.ts';

/**
 * All that decides knock at full load, to ask what another part would change: octane as AKI; the blower, whose boost was
 * measured in the air of the claim; nitrous oxide with its added power, W, and flow, kg/s, beside the engine's power and air
 * flow, and its retard, degrees; full advance, degrees, and the retard for boost, degrees per Pa.
 */
export type FullLoad = {
  readonly compressionRatio: number;
  readonly closing: number;
  readonly octane: number;
  readonly kept: Keeps;
  readonly charger: Charger;
  readonly claim: Ambient;
  readonly air: Ambient;
  readonly fuel: Fuel;
  readonly lambda: number;
  readonly nitrous?: Nitrous | undefined;
  readonly advance: number;
  readonly retardPerBoost: number;
};

type Nitrous = {
  readonly power: number;
  readonly flow: number;
  readonly retard: number;
  readonly enginePower: number;
  readonly airFlow: number;
};

/** The cylinder at full load, 3,000 rpm: `chargeOf`, `chargeTemperature` and the nitrous oxide together. @throws RangeError as these */
export function cylinderAt(of: FullLoad): Cylinder {
  const { nitrous } = of;
  const charge = chargeOf(of.kept, of.charger, of.claim, of.air);
  const cooling = nitrous ? nitrousCooling(nitrous.flow, nitrous.airFlow) : 0;
  return {
    compressionRatio: of.compressionRatio,
    closing: of.closing,
    octane: of.octane,
    pressure: charge.pressure,
    temperature: chargeTemperature({
      air: charge.temperature,
      fuel: of.fuel,
      lambda: of.lambda,
      nitrousCooling: cooling,
    }),
    energyRatio: nitrous ? nitrousEnergyRatio(nitrous.enginePower, nitrous.power) : 1,
    speed: REFERENCE_SPEED,
  };
}

/** Its spark, degrees before top dead center: `fullLoadSpark`. @throws RangeError as that */
export function sparkAt({ advance, retardPerBoost, charger, nitrous }: FullLoad): number {
  return fullLoadSpark(advance, retardPerBoost * charger.boost, nitrous?.retard ?? 0);
}

/** The same with another shot of nitrous oxide, W, its flow and retard in proportion. */
export function withShot(of: FullLoad, power: number): FullLoad {
  const { nitrous } = of;
  if (!nitrous) return of;
  const share = power / nitrous.power;
  return { ...of, nitrous: { ...nitrous, power, flow: nitrous.flow * share, retard: nitrous.retard * share } };
}
