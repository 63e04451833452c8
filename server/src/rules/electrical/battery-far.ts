import { crankingDrop, startingCurrent } from '../../analysis/electrical.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { stockedWires } from '../../remedies/pump-wire.ts';

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
  check: ({ values, see, know, show, showValue }) => {
    const drop = see(crankingDrop);
    const battery = values.electrical?.battery;
    const cable = battery?.cable;
    const miss = cable && drop && above(drop, MOST);
    if (!miss) return undefined;
    const current = know(startingCurrent);
    const thick = stockedWires(cable).find(({ area }) => (drop.value * cable.value) / area <= MOST * 0.98);
    const place = battery.placement === 'trunk' ? ' from the trunk' : '';
    return {
      at: 'electrical.battery.cable',
      message: `${show(battery['cable-length'])} of ${show(cable)} cable${place} lose ${show(drop)} at a cranking current of ${current ? showValue(current, 'current') : 'the starter'}, over ${showValue(MOST, 'voltage')}.`,
      related: [{ at: 'electrical.battery.cable-length', message: 'Length of the cable, one way.' }],
      ...miss,
      repairs: thick
        ? [
            {
              title: `Run a ${thick.text} battery cable`,
              set: { 'electrical.battery.cable': thick.text },
              shows: crankingDrop,
            },
          ]
        : [],
    };
  },
};
