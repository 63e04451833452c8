import { coilSupply, sparksPerCoil, steadyHeat } from '../../server/src/engineering/coil.ts';
import { coilChargeAt } from '../../server/src/engineering/ignition.ts';
import { type Check, ownCheck } from './check.ts';
import { RPM } from './units.ts';

const own = ownCheck(18, 'coils');
const hand = "Ohm's and Joule's laws, worked by hand";
const core = { primary: { resistance: 0.5, inductance: 3.5e-3 }, voltage: 12.75, sparksPerCycle: 8 };

export const checks: Check[] = [
  own(
    'coil-ballast-heat',
    'ballast heat, key on: 1.5 ohm coil and 1.5 ohm ballast at 14 V',
    () => steadyHeat(14, 1.5, 1.5).ballast,
    32.667,
    'W',
    1e-4,
    hand,
  ),
  own(
    'coil-steady-heat',
    'coil heat, key on: 1.5 ohm without ballast at 14 V',
    () => steadyHeat(14, 1.5).coil,
    130.67,
    'W',
    1e-4,
    hand,
  ),
  own(
    'coil-points-heat',
    'coil heat, key on: 3 ohm coil of contact points at 14 V',
    () => steadyHeat(14, 3).coil,
    65.333,
    'W',
    1e-4,
    hand,
  ),
  own(
    'coil-supply',
    'voltage that charges a coil at 14 V, usual loss in driver and feed',
    () => coilSupply(14),
    12.75,
    'V',
    1e-12,
    'common practice: 1 to 1.5 V',
  ),
  own(
    'coil-pairs',
    'sparks a cycle of each of four coils on eight cylinders',
    () => sparksPerCoil(8, 4),
    2,
    '-',
    0,
    'kinematics: once a revolution',
  ),
  own(
    'coil-pairs-energy',
    'current at 6,000 rpm of the same coil, one of four, charged for 9 ms',
    () => coilChargeAt(6000 * RPM, { ...core, sparksPerCycle: sparksPerCoil(8, 4) }).current,
    25.5 * (1 - Math.exp((-9e-3 * 0.5) / 3.5e-3)),
    'A',
    1e-9,
    'series RL circuit worked by hand: 10 ms between sparks less 1 ms',
  ),
];
