import { type ClaimCondition, type ClaimPlace, standardPower as standardOf } from '../engineering/claim.ts';
import { duty, pulseWidth } from '../engineering/injectors.ts';
import { sitePressure } from './air.ts';
import { boost as stageBoost } from './boost.ts';
import { chargingVoltage } from './charging.ts';
import { ordinaryAir, standardPower } from './claim.ts';
import { lambda } from './demand.ts';
import { peakPowerSpeed } from './engine.ts';
import { demandPerInjector, injectorFlow } from './full-load-injection.ts';
import { idleManifoldPressure } from './idle.ts';
import { deadTime, injection, pulsesPerCycle } from './injectors.ts';
import { choose, constant, figure, type Node, orElse } from './node.ts';
import { drivelineLoss } from './power.ts';
import { isRead, readWith, wordWith } from './readings.ts';

/** A value of the sheet as what a reading of it is held against. */
function asRead<const Id extends string>(about: {
  id: Id;
  field: Parameters<typeof isRead>[0];
  symbol: string;
  name: string;
  dimension: 'voltage' | 'pressure' | 'ratio-number';
  node: Node<number>;
}) {
  const { field, node, ...rest } = about;
  return figure({
    ...rest,
    formula: about.symbol,
    source: 'the sheet, or what is taken as usual',
    home: [`measured.${field}`],
    when: isRead(field),
    from: { node },
    compute: (values) => values.node,
  });
}

export const chargingVoltageToRead = asRead({
  id: 'charging-voltage-to-read',
  field: 'charging-voltage',
  symbol: 'U_0',
  name: 'voltage to read across the battery',
  dimension: 'voltage',
  node: chargingVoltage,
});

export const boostToRead = asRead({
  id: 'boost-to-read',
  field: 'boost',
  symbol: 'p_b',
  name: 'boost to read',
  dimension: 'pressure',
  node: stageBoost,
});

export const lambdaToRead = asRead({
  id: 'lambda-to-read',
  field: 'lambda',
  symbol: 'lambda',
  name: 'lambda to read at full load',
  dimension: 'ratio-number',
  node: lambda,
});

/** Air/fuel ratio that gauges with the scale of gasoline show at lambda 1. Common practice of the trade. */
export const GASOLINE_SCALE = 14.7;

export const airFuelRatioToRead = figure({
  id: 'air-fuel-ratio-to-read',
  symbol: 'AFR',
  name: 'air/fuel ratio to read at full load',
  dimension: 'ratio-number',
  formula: '14.7 lambda',
  source: 'common practice: the scale of gasoline, whatever the fuel',
  home: ['measured.air-fuel-ratio'],
  when: isRead('air-fuel-ratio'),
  from: { lambda },
  compute: (values) => GASOLINE_SCALE * values.lambda,
});

export const vacuumToRead = figure({
  id: 'vacuum-to-read',
  symbol: 'v_i',
  name: 'vacuum to read at idle',
  dimension: 'depression',
  formula: 'p_a - p_i',
  source: 'definition of gauge pressure',
  home: ['measured.idle-vacuum'],
  when: isRead('idle-vacuum'),
  from: { sitePressure, idleManifoldPressure },
  compute: (values) => values.sitePressure - values.idleManifoldPressure,
});

/** Figures of the injectors at the speed at which a field was read. */
function atSpeedOf<const Id extends string>(about: {
  id: Id;
  field: 'duty' | 'pulse-width';
  symbol: string;
  name: string;
  dimension: 'ratio' | 'time';
  formula: string;
  compute: typeof duty;
}) {
  const { field, compute, ...rest } = about;
  const speed = orElse(readWith(field, 'speed', 'N', 'speed at which it was read'), peakPowerSpeed);
  return figure({
    ...rest,
    source: 'kinematics of the four-stroke cycle; torque flat up to peak power and fuel flat beyond: common practice',
    home: [`measured.${field}`, 'measured.speed'],
    when: isRead(field),
    from: { demandPerInjector, injectorFlow, deadTime, pulsesPerCycle, speed, peakPowerSpeed },
    compute: (v) =>
      compute(
        v.demandPerInjector * Math.min(1, v.speed / v.peakPowerSpeed),
        injection(v.injectorFlow, v.deadTime, v.speed, v.pulsesPerCycle),
      ),
  });
}

export const dutyToRead = atSpeedOf({
  id: 'duty-to-read',
  field: 'duty',
  symbol: 'D',
  name: 'duty cycle to read at that speed and full load',
  dimension: 'ratio',
  formula: 'm_i min(1, N / N_p) / m_s + t_d * k * N / 2, k pulses per cycle',
  compute: duty,
});

export const pulseToRead = atSpeedOf({
  id: 'pulse-to-read',
  field: 'pulse-width',
  symbol: 't',
  name: 'pulse to read at that speed and full load',
  dimension: 'time',
  formula: 'm_i min(1, N / N_p) / m_s * 2 / (k N) + t_d, k pulses per cycle',
  compute: pulseWidth,
});

const condition = wordWith<ClaimCondition>('power', 'power-condition', 'condition', 'as-driven');
const place = wordWith<ClaimPlace>('power', 'power-at', 'place', 'crank');
const noLoss = constant({
  symbol: 'loss',
  name: 'loss of the driveline',
  value: 0,
  dimension: 'ratio',
  assumed: 'read at the crank',
});

/** What the driveline takes of what was read: nothing at the crank. */
const lossOfReading = choose({
  id: 'driveline-loss-of-the-reading',
  from: { place },
  among: (values) => (values.place === 'wheels' ? drivelineLoss : noLoss),
});

export const powerToRead = figure({
  id: 'power-to-read',
  symbol: 'P_read',
  name: 'power to read on the dyno',
  dimension: 'power',
  formula: ({ condition }) => `P_0 (1 - loss), in air "${condition}"`,
  source: 'SAE J1349 (1990) and J607, read in secondary copies; energy balance of the driveline',
  home: ['measured.power', 'measured.power-at', 'measured.power-condition'],
  when: isRead('power'),
  from: { standardPower, condition, ordinaryAir, lossOfReading },
  compute: (v) => (v.standardPower / standardOf(1, v.condition, v.ordinaryAir)) * (1 - v.lossOfReading),
});
