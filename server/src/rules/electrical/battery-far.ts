import { crankingDrop, startingCurrent } from '../../analysis/cranking.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { copper, thinnestWire } from '../../engineering/wire.ts';
import { largestResistance } from '../../engineering/wiring.ts';
import { kindOf, wireText } from '../../remedies/circuits.ts';
import type { Quantity } from '../../units/quantity.ts';

/** Voltage, V, the positive cable may lose while cranking. Common practice, from memory. */
const MOST = 0.5;

export const rule: StageRule = {
  id: 'electrical/battery-far',
  title: 'Battery cable loses too much while cranking',
  severity: 'warning',
  why: 'The computer has to live on what is left while the starter pulls. Below about 9 volts it restarts, and the engine never catches.',
  inspect:
    'Disable the ignition and crank. One meter lead on the positive post, the other on the starter stud: more than half a volt is lost in the cable. Then measure from the engine block to the negative post; the way back carries the same current.',
  remedy:
    'Run a thicker cable with crimped lugs, and renew the ground straps from engine to body to battery. A long cable from the trunk also needs a fuse or cut-off close to the battery and a vented box, as local codes say.',
  source: "Ohm's law; the limit of 0.5 V is common practice, from memory",
  check: ({ values, see, know, show, showValue, compare }) => {
    const drop = see(crankingDrop);
    const battery = values.electrical?.battery;
    const cable = battery?.cable;
    const miss = cable && drop && above(drop, MOST);
    if (!miss) return undefined;
    const current = know(startingCurrent) ?? 0;
    const thick = thicker(cable, battery['cable-length'], current);
    const shown = compare(drop, MOST);
    const place = battery.placement === 'trunk' ? ' from the trunk' : '';
    return {
      at: 'electrical.battery.cable',
      message: `${show(battery['cable-length'])} of ${show(cable)} cable${place} lose ${shown.value} at a cranking current of ${showValue(current, 'current')}, over ${shown.limit}.`,
      related: [{ at: 'electrical.battery.cable-length', message: 'Length of the cable, one way.' }],
      ...miss,
      repairs: thick
        ? [
            {
              title: `Run a ${thick} battery cable`,
              set: { 'electrical.battery.cable': thick },
              shows: crankingDrop,
            },
          ]
        : [],
    };
  },
};

/** The thinnest stocked cable that keeps within the limit, in the kind the sheet uses. */
function thicker(cable: Quantity, length: Quantity | undefined, current: number): string | undefined {
  if (!length) return undefined;
  const most = largestResistance({ current, drop: MOST, length: length.high, returnLength: 0 });
  const size = thinnestWire(most, kindOf(cable), copper.referenceTemperature);
  return size === undefined ? undefined : wireText(size, cable);
}
