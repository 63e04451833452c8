import { chargingVoltage } from '../../analysis/charging.ts';
import { deadTime } from '../../analysis/injectors.ts';
import type { StageRule } from '../../checking/rule.ts';
import type { Quantity } from '../../units/quantity.ts';

/** Share by which an estimate beyond the table may differ from its last point and go unsaid. */
const SLIGHT = 0.15;

export const rule: StageRule = {
  id: 'throttle-body/dead-time-not-measured',
  title: 'Dead times end far from the charging voltage',
  severity: 'information',
  why: 'Duty and idle pulse are judged at charging voltage. Beyond the measured points the dead time is an estimate, and far under them nobody knows whether the injector opens at all, so findings that stand on it are worth little.',
  inspect: "Look at the voltages of the injectors' data sheet: a useful table runs from 8 or 9 V to 16 V.",
  remedy: 'Write the points from cranking to charging voltage into the sheet.',
  source: 'common practice: dead time falls with the square of the voltage',
  check: ({ values, know, see, impossible, show, showValue }) => {
    const points = values['throttle-body']?.injectors?.['dead-time-at'] as [Quantity, Quantity][] | undefined;
    const voltage = know(chargingVoltage);
    const [first, last] = [points?.[0], points?.at(-1)];
    if (!first || !last || voltage === undefined || last[0].value < first[0].value) return undefined;
    const at = 'throttle-body.injectors.dead-time-at';
    const volts = showValue(voltage, 'voltage');
    const related = values.electrical?.['charging-voltage']
      ? [{ at: 'electrical.charging-voltage' as const, message: 'The voltage the injectors work at.' }]
      : [];
    if (impossible(deadTime)) {
      return {
        at,
        message: `The points begin at ${show(first[0])}: nobody knows the dead time at ${volts}, so duty and idle are not judged.`,
        related,
      };
    }
    const estimate = see(deadTime);
    if (!estimate || (voltage >= first[0].value && voltage <= last[0].value)) return undefined;
    const nearest = voltage > last[0].value ? last[1].value : first[1].value;
    if (Math.abs(estimate.value / nearest - 1) < SLIGHT) return undefined;
    const end = voltage > last[0].value ? `end at ${show(last[0])}` : `begin at ${show(first[0])}`;
    return {
      at,
      message: `The points ${end}, so the dead time of ${show(estimate)} at ${volts} is only an estimate.`,
      related,
    };
  },
};
