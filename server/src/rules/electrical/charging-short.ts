import { chargingReserve } from '../../analysis/charging.ts';
import { computerLoad, fanLoad, liftPumpCurrent, otherLoad, pumpsCurrent } from '../../analysis/loads.ts';
import { below, type StageRule } from '../../checking/rule.ts';

/** What a new alternator should give over the loads. Common practice, no source. */
const HEADROOM = 1.15;

/** Step, A, of the sizes alternators come in. Common practice, no source. */
const STEP = 5;

export const rule: StageRule = {
  id: 'electrical/charging-short',
  title: 'Charging system too small for the loads',
  severity: 'warning',
  capacity: true,
  why: 'What the alternator cannot give comes out of the battery: the voltage sinks, the pump slows, the injectors open later, and in the end the computer quits. A conversion adds pumps, injectors and a computer to what the car was built for.',
  inspect:
    'Clamp meter on the alternator wire, warm idle, lights, fan and all pumps on. If the battery voltage keeps falling meanwhile, the battery is feeding the car.',
  remedy:
    'Fit an alternator that gives the current at idle and not only at speed, with a charge wire and a fuse to match. Or take loads off: a fan on a thermostat, lamps that draw less.',
  source: 'current balance; loads that are not given are common practice',
  check: ({ values, see, know, showValue, compare }) => {
    const reserve = see(chargingReserve);
    const output = values.electrical?.['charging-current'];
    const miss = reserve && output && below(reserve, 0);
    if (!miss) return undefined;
    const loads = [
      ['pumps', know(pumpsCurrent)],
      ['lift pump', know(liftPumpCurrent)],
      ['fan', know(fanLoad)],
      ['vehicle', know(otherLoad)],
      ['computer', know(computerLoad)],
    ] as const;
    const parts = loads.flatMap(([name, amps]) => (amps ? `${name} ${showValue(amps, 'current')}` : []));
    const { 'other-load': givenOther, 'computer-load': givenComputer } = values.electrical ?? {};
    const sum = output.value + miss.excess;
    const shown = compare({ value: sum, dimension: 'current' }, output.value);
    const assumed = givenOther && givenComputer ? '' : ', partly assumed';
    const size = showValue(Math.ceil((sum * HEADROOM) / STEP) * STEP, 'current');
    return {
      at: 'electrical.charging-current',
      message: `The loads take ${shown.value} (${parts.join(', ')}${assumed}), but the alternator gives ${shown.limit}.`,
      ...miss,
      repairs: [
        {
          title: `Fit an alternator that gives ${size}`,
          set: { 'electrical.charging-current': size },
          shows: chargingReserve,
        },
      ],
    };
  },
};
