import { idleChargingReserve } from '../../analysis/charging.ts';
import { computerLoad, fanAtIdle, liftPumpCurrent, otherLoad, pumpsCurrent } from '../../analysis/loads.ts';
import { below, type StageRule } from '../../checking/rule.ts';

/** What a new alternator should give over the loads at idle. Common practice, no source. */
const HEADROOM = 1.1;

/** Step, A, of the sizes alternators come in. Common practice, no source. */
const STEP = 5;

export const rule: StageRule = {
  id: 'electrical/charging-short-at-idle',
  title: 'Alternator too weak at hot idle',
  severity: 'warning',
  why: 'At idle an alternator gives half or less of what is printed on it, and that is where the fan runs, the lights are on and the car stands in line. The voltage sinks, the pump slows and the injectors open later, just when the idle is hardest to hold.',
  inspect:
    'Hot idle in gear, fan, lights and blower on: clamp meter on the alternator wire, meter on the battery. A voltage that sinks below 13 V and goes on sinking comes from the battery.',
  remedy:
    'An alternator made for output at idle, a smaller pulley where the belt and the top speed allow it, or less load: a fan with two speeds, lamps that draw less.',
  source: 'current balance; loads that are not given are common practice',
  check: ({ values, see, know, compare, showValue }) => {
    const output = values.electrical?.['idle-current'];
    const reserve = output && values.electrical?.['cooling-fan'] && see(idleChargingReserve);
    const miss = reserve && below(reserve, 0);
    if (!output || !miss) return undefined;
    const loads = [
      ['pumps', know(pumpsCurrent)],
      ['lift pump', know(liftPumpCurrent)],
      ['fan', know(fanAtIdle)],
      ['vehicle', know(otherLoad)],
      ['computer', know(computerLoad)],
    ] as const;
    const parts = loads.flatMap(([name, amps]) => (amps ? `${name} ${showValue(amps, 'current')}` : []));
    const sum = output.value + miss.excess;
    const shown = compare({ value: sum, dimension: 'current' }, output.value);
    const size = showValue(Math.ceil((sum * HEADROOM) / STEP) * STEP, 'current');
    return {
      at: 'electrical.idle-current',
      message: `At hot idle the loads take ${shown.value} (${parts.join(', ')}), but the alternator gives ${shown.limit} there.`,
      ...miss,
      repairs: [
        {
          title: `Fit an alternator that gives ${size} at idle`,
          set: { 'electrical.idle-current': size },
          shows: idleChargingReserve,
        },
      ],
    };
  },
};
