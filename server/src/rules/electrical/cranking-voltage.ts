import { crankingComputerVoltage, startingCurrent } from '../../analysis/cranking.ts';
import { below, type StageRule } from '../../checking/rule.ts';

/** Voltage, V, under which a computer may restart while the starter turns. Common practice, from memory. */
const LEAST = 9;

export const rule: StageRule = {
  id: 'electrical/cranking-voltage',
  title: 'Computer loses its ground while cranking',
  severity: 'warning',
  why: "The starter's current lifts the engine over the battery's negative post by what it loses in the ground cable. A computer that is grounded there gets that much less: below about 9 volts it restarts, injectors open late or not at all, and the engine never catches.",
  inspect:
    'Disable the ignition and crank. Meter from the ground terminal of the computer to the negative post: more than half a volt is the ground cable.',
  remedy: "Ground the computer at the battery's negative post, and renew the ground cable from engine to battery.",
  source: "Ohm's law; 10 V at the posts while cranking and 9 V for the computer are common practice, from memory",
  check: ({ values, see, know, showValue, compare }) => {
    const voltage = see(crankingComputerVoltage);
    const miss = below(voltage, LEAST);
    if (!voltage || !miss) return undefined;
    const shown = compare(voltage, LEAST);
    const isGroundedAtBattery = values.electrical?.['computer-ground'] === 'battery';
    return {
      at: 'electrical.battery',
      message: isGroundedAtBattery
        ? `The battery falls to ${shown.value} while cranking; the computer wants ${shown.limit}.`
        : `Only ${shown.value} are left for the computer while cranking at ${showValue(know(startingCurrent) ?? 0, 'current')}; it wants ${shown.limit}.`,
      ...miss,
      repairs: isGroundedAtBattery
        ? []
        : [
            {
              title: "Ground the computer at the battery's negative post",
              set: { 'electrical.computer-ground': 'battery' },
              shows: crankingComputerVoltage,
            },
          ],
    };
  },
};
