import { crankPower as crankPowerOf, drivelineLoss as usualLoss } from '../engineering/claim.ts';
import { choice, choose, fact, field, figure, given } from './node.ts';

const statedPower = field('stages.power', 'P');

const powerPlace = choice<'crank' | 'wheels'>('stages.power-at', 'place', {
  value: 'crank',
  because: 'a claim is meant at the crank',
});

const isAtWheels = fact({
  id: 'is-power-at-the-wheels',
  from: { powerPlace },
  compute: (values) => values.powerPlace === 'wheels',
});

export const drivelineLoss = field('stages.driveline-loss', 'loss', {
  value: usualLoss.value,
  because: usualLoss.source,
});

export const crankPower = figure({
  id: 'crank-power',
  symbol: 'P_crank',
  name: 'power at the crank',
  dimension: 'power',
  formula: 'P_wheels / (1 - loss)',
  source: 'energy balance of the driveline; the loss is common practice',
  home: ['stages', 'stages.power'],
  when: isAtWheels,
  from: { statedPower, drivelineLoss },
  compute: (values) => crankPowerOf(values.statedPower, values.drivelineLoss),
});

/** Power of the stage at the crank, W, without nitrous, in the air its claim holds in. */
export const stagePower = choose({
  id: 'stage-power',
  from: { isAtWheels },
  among: (values) => (values.isAtWheels ? crankPower : statedPower),
});

export const hasNitrous = given('stages.nitrous');

export const addedPower = field('stages.nitrous.power', 'P_n');

export const powerWithNitrous = figure({
  id: 'power-with-nitrous',
  symbol: 'P_full',
  name: 'power at the crank while nitrous flows',
  dimension: 'power',
  formula: 'P + P_n',
  source: 'definition',
  home: ['stages.nitrous', 'stages', 'stages.power'],
  when: hasNitrous,
  from: { stagePower, addedPower },
  compute: (values) => values.stagePower + values.addedPower,
});

/** Power of the stage at the crank, W, that of nitrous counted. */
export const fullPower = choose({
  id: 'full-power',
  from: { hasNitrous },
  among: (values) => (values.hasNitrous ? powerWithNitrous : stagePower),
});
