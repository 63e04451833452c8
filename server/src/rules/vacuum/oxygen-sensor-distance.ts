import type { StageRule } from '../../checking/rule.ts';
import { roundedDown, roundedUp } from '../../remedies/size.ts';

/** Usual distances, m, along the pipe: 2 to 30 in after the collector, 18 to 36 in after a turbine. Common practice, from memory. */
const USUAL = {
  collector: { from: 0.0508, to: 0.762, after: 'the collector' },
  'after-turbine': { from: 0.4572, to: 0.9144, after: 'the turbine' },
};

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-distance',
  title: 'Oxygen sensor too near or too far',
  severity: 'information',
  why: 'Too near, the sensor overheats and sees badly mixed gas; too far, it answers late, cools down at idle and catches water. Both make the computer trim the fuel wrongly.',
  inspect: 'Measure along the pipe from the collector or the turbine outlet to the bung.',
  remedy: 'Weld a bung in the usual range, in the upper half of the pipe, so that water runs away from the sensor.',
  source: 'common practice, from memory',
  cautions: ['welding'],
  check: ({ values, induction, show, showValue }) => {
    const { placement, distance } = values.sensors?.oxygen ?? {};
    if (!distance || (placement !== 'collector' && placement !== 'after-turbine')) return undefined;
    if (placement === 'collector' && induction === 'turbo') return undefined;
    const { from, to, after } = USUAL[placement];
    if (distance.value >= from && distance.value <= to) return undefined;
    const isNear = distance.value < from;
    const better = isNear ? roundedUp(from, distance) : roundedDown(to, distance);
    return {
      at: 'sensors.oxygen.distance',
      message: `${show(distance)} after ${after} is ${isNear ? 'near' : 'far'} for an oxygen sensor; ${showValue(from, 'length')} to ${showValue(to, 'length')} is usual.`,
      repairs: [{ title: `Mount it ${better} after ${after}`, set: { 'sensors.oxygen.distance': better } }],
    };
  },
};
