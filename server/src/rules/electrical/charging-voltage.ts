import type { StageRule } from '../../checking/rule.ts';
import { isTwelveVolt } from '../../remedies/twelve-volt.ts';

/** Range, V, in which a healthy 12-volt system charges a warm battery. Common practice, from memory. */
const LOW = 13.2;
const HIGH = 15;

export const rule: StageRule = {
  id: 'electrical/charging-voltage',
  title: 'Charging voltage out of its usual range',
  severity: 'warning',
  why: 'Below its range the battery never fills, the pump slows and the injectors open later than the computer believes. Above it the battery boils off explosive gas and electronics fail. Mend the charging system before the conversion hides the cause.',
  inspect:
    'Warm engine at a fast idle, meter on the battery posts, lights off and then on. Then from the alternator stud to the positive post: more than about 0.3 V there is a bad charge wire.',
  remedy: 'Belt, terminals, charge wire and ground first; then the regulator or the alternator.',
  source: 'common practice, from memory: 13.2 to 15.0 V at the battery, warm',
  check: ({ values, show, showValue }) => {
    const voltage = values.electrical?.['charging-voltage'];
    if (!voltage || !isTwelveVolt(voltage.value)) return undefined;
    const isLow = voltage.value < LOW;
    if (!isLow && voltage.value <= HIGH) return undefined;
    return {
      at: 'electrical.charging-voltage',
      message: isLow
        ? `The charging system holds only ${show(voltage)}; a healthy one holds ${showValue(LOW, 'voltage')} or more, so belt, regulator or wiring want a look.`
        : `The charging system goes up to ${show(voltage)}, over the ${showValue(HIGH, 'voltage')} of a healthy one: its regulator overcharges the battery.`,
    };
  },
};
