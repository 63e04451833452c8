import { sitePressure } from '../../analysis/air.ts';
import type { PlanRule } from '../../checking/rule.ts';

/** How far the reading may be off the air of the site, Pa: weather and sensor together. Common practice, from memory. */
const TOLERANCE = 4e3;

export const rule: PlanRule = {
  id: 'vacuum/manifold-pressure-read-off',
  title: 'Manifold-pressure sensor does not read the air outside',
  severity: 'warning',
  why: 'With the engine off the manifold is full of plain air, so the sensor must read what the weather and the height give. A reading that is off means a wrong sensor in the settings, a bad ground or a sensor that is worn out, and every load the computer sees is off as much.',
  inspect:
    'Key on, engine off, hose off the sensor and on again: both readings the same, and within a few kPa of the air pressure of the place, not that brought down to the sea.',
  remedy:
    'Choose the sensor that is fitted in the settings, mend its ground and its 5 V; where the computer can, set its zero now.',
  source: 'ISO 2533:1975 for the air of the site; 4 kPa is common practice, from memory',
  checkPlan: ([first]) => {
    const read = first?.values['first-start']?.['manifold-pressure-read'];
    const air = read && first.see(sitePressure);
    if (!air || Math.abs(read.value - air.value) <= TOLERANCE) return undefined;
    return {
      at: 'first-start.manifold-pressure-read',
      message: `With the engine off the computer shows ${first.show(read)}, but the air at the site has some ${first.show(air)}: look at the choice of sensor, its ground and its hose.`,
      excess: Math.abs(read.value - air.value),
      related: [{ at: 'site.altitude', message: 'The height of the site.' }],
    };
  },
};
