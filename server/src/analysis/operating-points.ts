import { type FuelNetwork, type OperatingPoint, railAtSetting, solveNetwork } from '../engineering/network.ts';
import { fuelViscosity, hotFuelDensity } from './fuel.ts';
import { feedSide, piping, pumps } from './fuel-network.ts';
import { idleFuel } from './idle.ts';
import { pumpDemand } from './nitrous.ts';
import { fact, figure, type Node, orElse } from './node.ts';
import { fullLoadReference, idleReference, isInTank, regulatorPressure } from './regulator.ts';

export const demandVolume = figure({
  id: 'demand-volume',
  symbol: 'Q_f',
  name: 'fuel demand by volume',
  dimension: 'volume-flow',
  formula: 'm_f / rho_hot',
  source: 'mass balance; density of the hottest fuel, the larger volume',
  home: ['stages', 'fuel-system.pump'],
  from: { pumpDemand, hotFuelDensity },
  compute: ({ pumpDemand, hotFuelDensity }) => pumpDemand / hotFuelDensity,
});

/** A regulator referred to a gauge pressure, Pa. */
function regulatorWith(id: string, reference: Node<number>) {
  return fact({
    id,
    from: { regulatorPressure, reference, isInTank },
    compute: ({ regulatorPressure, reference, isInTank }): FuelNetwork['regulator'] => ({
      setting: regulatorPressure,
      reference,
      place: isInTank ? 'pump' : 'rail',
    }),
  });
}

/** The fuel as it flows in lines, on the safe side: as dense as when hottest, as viscous as at 15 degC. */
export const liquid = fact({
  id: 'liquid',
  from: { hotFuelDensity, fuelViscosity },
  compute: ({ hotFuelDensity, fuelViscosity }) => ({ density: hotFuelDensity, viscosity: fuelViscosity }),
});

const atFullLoad = regulatorWith('regulator-at-full-load', fullLoadReference);
const atIdle = regulatorWith('regulator-at-idle', idleReference);
const atRest = regulatorWith('regulator-with-the-engine-off', fact({ id: 'atmosphere', from: {}, compute: () => 0 }));

/** The fuel system with its regulator. */
function networkWith(id: string, regulator: Node<FuelNetwork['regulator']>) {
  return fact({
    id,
    from: { piping, pumps, liquid, regulator },
    compute: ({ piping, pumps, liquid, regulator }): FuelNetwork => ({ ...piping, pumps, liquid, regulator }),
  });
}

const fullLoadNetwork = networkWith('network-at-full-load', atFullLoad);
const idleNetwork = networkWith('network-at-idle', atIdle);
const standingNetwork = networkWith('network-with-the-engine-off', atRest);

/** Where the fuel system settles while the engine takes the most. */
export const hungriest = fact({
  id: 'operating-point-at-full-load',
  from: { network: fullLoadNetwork, demandVolume },
  compute: ({ network, demandVolume }) => solveNetwork(network, demandVolume),
});

/** What the pump could give while the regulator stands at its setting, also where that is less than the demand. */
export const atSetting = fact({
  id: 'operating-point-at-the-setting',
  from: { network: fullLoadNetwork, hungriest },
  compute: ({ network, hungriest }): OperatingPoint => {
    const isHeld = hungriest.regulation === 'holds' || hungriest.regulation === 'backed-up';
    return isHeld && network.return ? hungriest : solveNetwork({ ...network, return: [] }, 0);
  },
});

/** Fuel at idle as a share of that at full power, where it is not known. Common practice, from memory: 2 to 5 %. */
const IDLE_SHARE = 0.03;

const volumeOfIdleFuel = fact({
  id: 'volume-of-idle-fuel',
  from: { idleFuel, hotFuelDensity },
  compute: ({ idleFuel, hotFuelDensity }) => idleFuel / hotFuelDensity,
});
const shareOfDemand = fact({
  id: 'idle-share-of-demand',
  from: { demandVolume },
  compute: ({ demandVolume }) => demandVolume * IDLE_SHARE,
});
const idleVolume = orElse(volumeOfIdleFuel, shareOfDemand);

export const idling = fact({
  id: 'operating-point-at-idle',
  from: { network: idleNetwork, idleVolume },
  compute: ({ network, idleVolume }) => solveNetwork(network, idleVolume, false),
});

/** All pumps running, the engine standing. */
export const standing = fact({
  id: 'operating-point-with-the-engine-off',
  from: { network: standingNetwork },
  compute: ({ network }) => solveNetwork(network, 0),
});

/** Rail pressure, Pa, while the regulator stands at its setting: what a pump that is large enough gives. */
function railHeldBy(id: string, regulator: Node<FuelNetwork['regulator']>, volume: Node<number>) {
  return fact({
    id,
    from: { feedSide, liquid, regulator, volume },
    compute: ({ feedSide, liquid, regulator, volume }) => railAtSetting({ ...feedSide, liquid, regulator }, volume),
  });
}

export const railBehindFeed = railHeldBy('rail-behind-the-feed-at-full-load', atFullLoad, demandVolume);
export const idleRailBehindFeed = railHeldBy('rail-behind-the-feed-at-idle', atIdle, idleVolume);
