import { elementArea, elementAreaNeeded } from '../../server/src/engineering/air-cleaner.ts';
import { cableTravel } from '../../server/src/engineering/cable.ts';
import { converterDrag } from '../../server/src/engineering/converter.ts';
import { gaugeReading } from '../../server/src/engineering/gauge.ts';
import { type Check, ownCheck } from './check.ts';
import { RPM } from './units.ts';

const own = ownCheck(22, 'installation');
const INCH = 0.0254;
const CFM = 0.3048 ** 3 / 60;

export const checks: Check[] = [
  own(
    'cable-chord',
    'cable on a lever of 28 mm that swings 80 degrees, square in the middle: the chord of the circle',
    () => 1e3 * cableTravel({ radius: 0.028, angle: 50, swing: 80 }),
    35.996,
    'mm',
    1e-4,
    'chord of a circle, 2 r sin(s / 2), worked by hand',
  ),
  own(
    'cable-low-lever',
    'share of the travel at half throttle of a lever 20 degrees off its cable, swing 76 degrees',
    () => {
      const lever = { radius: 1, angle: 20, swing: 76 };
      return (100 * cableTravel(lever, 0.5)) / cableTravel(lever);
    },
    39.24,
    '%',
    1e-3,
    'cosines of a table: (0.93969 - 0.52992) / (0.93969 + 0.10453)',
  ),
  own(
    'converter-at-idle',
    'converter that holds 348 N m at 2,000 rpm, engine at 700 rpm in gear',
    () => converterDrag(348, 700 * RPM, 2000 * RPM),
    3125,
    'W',
    1e-3,
    'torque with the square of speed: 42.63 N m at 73.30 rad/s, worked by hand',
  ),
  own(
    'gauge-mixed-sender',
    'gauge of 90 to 0 ohm with a sender of 70 ohm at empty',
    () => 100 * gaugeReading(70, { empty: 90, full: 0 }),
    22.222,
    '%',
    1e-4,
    'proportion, worked by hand',
  ),
  own(
    'element-area',
    'outside of a 14 by 3 in element less 3/4 in of rubber',
    () => elementArea(14 * INCH, 3 * INCH) / INCH ** 2,
    98.96,
    'in^2',
    1e-4,
    'cylinder, worked by hand',
  ),
  own(
    'element-area-needed',
    'element for 290 in^3 at 5,000 rpm, all filled: 290 * 5000 / 3456 cfm',
    () => elementAreaNeeded(((290 * 5000) / 3456) * CFM) / INCH ** 2,
    69.58,
    'in^2',
    1e-2,
    'trade form cid * rpm / 20839, from memory',
  ),
];
