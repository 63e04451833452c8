import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.routing.gauge',
    is: 'fuel-line-to-cabin',
    message: 'A line with fuel under pressure leads to a gauge in the cabin: take a gauge with an electric sender.',
    repair: ['Take a gauge with an electric sender', 'electric'],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/fuel-in-cabin',
  title: 'Fuel under pressure in the cabin',
  severity: 'error',
  why: 'One joint that lets go sprays fuel over the people in the car and over the wiring behind the dash. Racing rules and local codes forbid it for that reason.',
  inspect: 'Follow the line of the gauge: what ends behind the dash must be a wire.',
  remedy: 'An electric sender at the fuel rail and a wire to the gauge, or a gauge under the hood for setting only.',
  source: 'common practice; the rules of the racing body and local codes hold',
  check: (situation) => declaredFaults(situation, FAULTS),
};
