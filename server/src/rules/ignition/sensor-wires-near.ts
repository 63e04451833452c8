import { below, type StageRule } from '../../checking/rule.ts';
import { roundedUp } from '../../remedies/size.ts';

/** Closest that wires of sensors may run beside plug wires, coil or discharge box, m: 4 in. Common practice, from memory. */
const LEAST = 0.1016;

export const rule: StageRule = {
  id: 'ignition/sensor-wires-near',
  title: 'Sensor wires beside plug wires or discharge box',
  severity: 'warning',
  why: 'Each spark sends a pulse into every wire that runs along with a plug wire, and a discharge box into all that pass it. The pickup then counts sparks as teeth: speed jumps, timing jumps, and the computer loses its place.',
  inspect:
    'Follow the wires of pickup, throttle and manifold-pressure sensor; look at the speed the computer logs at a steady throttle: it must be a line without spikes.',
  remedy:
    'A hand of room to plug wires, coil and box, crossings only at right angles, the box with power wires of its own straight to the battery.',
  source: 'common practice, from memory: 4 in',
  check: ({ values, compare }) => {
    const distance = values.ignition?.['sensor-wire-distance'];
    const miss = distance && below(distance, LEAST);
    if (!miss) return undefined;
    const shown = compare(distance, LEAST);
    const least = roundedUp(LEAST, distance);
    return {
      at: 'ignition.sensor-wire-distance',
      message: `Sensor wires run ${shown.value} from plug wires, coil or discharge box, under the ${shown.limit} that keep noise out: move them.`,
      ...miss,
      repairs: [
        { title: `Move the sensor wires ${least} away or more`, set: { 'ignition.sensor-wire-distance': least } },
      ],
    };
  },
};
